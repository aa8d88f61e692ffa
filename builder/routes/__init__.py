"""Where the wires run: takes the trailer, gives what lies beside what on the way.

Pure functions; what a bundle costs in current is `builder.routes.bundle`.
"""
