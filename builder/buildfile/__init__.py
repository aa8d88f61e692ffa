"""From the text of a build file to a trailer.

Takes the bytes of a build file (YAML); gives a resolved trailer, or every problem in it with line, column, a plain
sentence and a way out.
"""
