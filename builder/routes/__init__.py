"""Where the wires run: takes the places and chases of a trailer, gives ways, lengths, and what lies side by side.

`network` joins chases at their named places, `ways` finds the shortest way, `legs` the length of one leg, `runs` the
run of every wire and its bundle, `fill` how full a conduit is. Pure functions; what a bundle costs in current is
`builder.routes.bundle`.
"""
