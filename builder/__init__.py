"""From one build file to the wiring manual of a small camping trailer.

A build goes through once, from top to bottom: ``buildfile`` reads, ``trailer`` holds, ``routes`` and
``electrics`` compute, ``rules`` judge, ``drawings`` and ``pages`` show, ``publish`` hands over.
"""

__version__ = "0.1.0"
