"""The lists of words that makers use for a word of the build file, by place: common practice of the trade.

Each line has a word of the build file, a colon, and what is written for it, parted by commas.
"""

from __future__ import annotations

LISTS = {
    "part": """
        draws: amps, amp, amperes, ampere, ampage, amperage, watts, watt, wattage, power, current, load,
          consumption, consumes, uses, takes, draw, milliamps
        kind: type, category, what
        at: volts, voltage
        where: location, position
        note: remark, comment, remarks, comments
        ways: pins, poles
        draws when idle: standby, standby current, idle current, quiescent current, parasitic draw, idle
          draw
        outputs: output, channels
        works from: minimum voltage, cut-off voltage, low voltage cutoff
        gives: delivers, output power
        gives at: output voltage
        rating: rated, rated current, ampere rating
        own switch: built-in switch
        leads: pigtail, pigtails, tails
        lit length: strip length
    """,
    "circuit": """
        fuse: amps, amperes, breaker, fuse rating, fuse size, fused at, protection
        size: gauge, awg, wire gauge, wire size, cross section, mm2, section
        color: colour, wire colour, hue
        path: route, run, wiring, loads
        return: earth, negative, ground, minus, return wire
        return color: earth colour, ground color, negative color, return colour
        from: start, source, supply, fed from, feed
        way: slot, fuse slot, fuse way, position
        branches: taps, branch
        note: remark, comment, remarks
    """,
    "item": """
        length: distance, run
        size: gauge, awg, wire size, cross section
        color: colour, wire colour
        through: via, passes
        terminal: pin, way, contact, pole
        as: role
    """,
    "battery": """
        chemistry: type, kind, technology
        capacity: ah, amp hours, ampere hours, amp-hours
        size: gauge, wire size, cable size, awg
        fuse: breaker, main fuse
        return: earth, negative, ground
        where: location, position
        box: compartment, case, tray
        frame bond: chassis ground, earth strap, bonding, ground strap
        path: route, run
    """,
    "front box": """
        fuse ways: fuse slots, slots, ways, fuse count
        fuses: fuse type, fuse kind
        fuses on the shelf: spare fuses, fuse stock
        ground bar: earth bar, negative bar, negative bus, bus bar, busbar, ground bus
        strip: terminal strip
        where: location, position
        check against: standard
    """,
    "studs": """
        size: thread, diameter, stud, screw, bolt
        count: studs, screws, posts, how many, number
        most on each: most, wires, wires on each, at most, limit
    """,
    "hole": """
        bore: diameter, size, hole, gland, grommet
        takes: wires, circuits, through, carries, cables, for
        in: wall, side, place
        from left: left, x
        from top: top, y, up, height
    """,
    "tow plug": """
        pattern: type, kind, plug, pinout
        to front box: cable, length, cable length
        where: location, place
    """,
    "wire": """
        on the shelf: sizes, gauges, size, gauge, awg, stock
        feed: positive, positive color, plus, hot, live
        return: negative, ground, earth, minus, negative color
        insulation: temperature, temperature rating, rating
    """,
    "road lamp": """
        shows: function, functions, type, lights
        wire: length
        path: route
        where: position, location, place
        draws: amps, watts, wattage, current, power
        own wires: own wire
    """,
    "build": """
        name: title, model
        number: no, serial, serial number
        country: nation, region
        paper: page size, paper size, page
        stage: phase, progress, status
        description: summary, about
        units: measures, measurements
    """,
    "trailer": """
        gross weight: weight, gvwr, gross mass, mass
        width: breadth, wide
        length: long, overall length
    """,
    "spare": """
        from: start
        to: end
        wire: length
        size: gauge, awg, wire size
        color: colour
    """,
    "mains": """
        done by: installer, electrician, installed by
        what: description, equipment
    """,
    "stock": """
        wire: wires, cable
        terminals: lugs, connectors, crimps
        labels: stickers, tags
        parts: items, components
    """,
    "place": """
        back: behind, from front, x, distance
        ahead: forward, in front
        up: height, above, z, high
        down: below, under
    """,
    "chase": """
        through: path, via, places, along, passes, points
        kind: type, what
        bore: diameter, inside diameter, inner diameter, id
        slack: loop, extra
        hinge: axis, hinge axis
        opens: angle, opening angle
        where: location, position
    """,
    "skin": """
        fasteners go in: screw length, screws, fasteners, depth, screws go in, screw depth
        from: side, driven from
        corners: places, points, over
    """,
    "panel": """
        corners: places, points
        held by: held with, fastened with, fixed with, fixed by, screws, fasteners
        behind: hides, covers
        from: side, seen from
        where: location, position
    """,
    "body": """
        profile: outline, side profile, points, side, shape
        width: breadth, wide, overall width
    """,
    "corner": """
        back: behind, from front, x, distance
        up: height, above, z, y, high
        radius: arc, curve, r
        hollow: concave, inward, inwards
    """,
    "opening": """
        in: wall, on, side, where
        back: behind, from front, x
        up: above, z, from floor
        width: wide, breadth
        height: high, tall
        length: long
        radius: corner radius, corners
    """,
    "frame": """
        in: wall, on, side, where
        back: behind, from front, at, x
        up: height, above, z
        thick: thickness, width, wide, size
    """,
    "backing block": """
        in: wall, on, side, where
        back: behind, from front, x
        up: above, z, from floor
        width: wide, breadth
        height: high, tall
        length: long
        thick: thickness, deep, depth
        holds: for, carries, purpose, what
    """,
    "return": """
        length: distance
        to: into, at
    """,
    "branch": """
        from: start, at, source
        output: channel
        path: route, run
        return: earth, negative, ground
    """,
    "heading": """
        parts: components, devices, loads, equipment, consumers, items
        circuits: branches, fuses, wiring
        front box: fuse box, fuse panel, fusebox, distribution box, panel, fuse block
        battery: house battery, leisure battery, accumulator
        wire: wires, cables, cable
        tow plug: trailer plug, tow connector, trailer connector, plug
        road lamps: tail lights, lights, road lights, trailer lights, tail lamps
        mains: shore power, shore, hookup
        in stock: stock, inventory
        assume: assumptions, assumed
        build: project
        body: outline, shell, profile
        openings: doors, windows, cutouts
        frames: studs, ribs, framing
        backing blocks: blocking, backing, backers, blocks, noggings
        terminal studs: posts, bolts, stud sizes, terminals, screws
        entry holes: cable entries, glands, cable glands, holes, box holes, knockouts, grommets
        trailer: dimensions
        waiting: pending, to do
        pulled: wires in, drawn in, wired
        prices: price, cost, costs, price list
        closed bays: closed, closed up, closed walls, bays
        options: later, extras, versions, variants, optional
        changes: as built, deviations, modifications, done otherwise
        format: version
        spares: spare wires
        places: points, positions, locations
        chases: conduits, channels, grooves, raceways, ducts, wireways, wire ways
        skins: walls, claddings, cladding, sheathing, linings
        panels: lids, access panels
    """,
    "kind": """
        lamp: light, led, bulb, led strip, reading light, spotlight
        fan: ventilator, roof vent fan
        pump: water pump
        socket: usb socket, outlet, receptacle, cigarette socket
        fridge: refrigerator, cooler, cool box, freezer
        radio: stereo
        alarm: smoke alarm, gas detector, co alarm, detector
        meter: voltmeter, gauge, battery monitor, shunt
        air heater: diesel heater, parking heater
        switch: rocker switch, toggle switch, toggle, push button
        isolating switch: battery switch, master switch, isolator, disconnect, kill switch
        breaker: circuit breaker
        breakaway switch: break-away switch, pull pin switch
        breakaway battery: break-away battery, brake battery
        two-way switch: three-way switch, 3-way switch
        four-way switch: intermediate switch
        relay: solenoid, contactor
        connector: terminal block
        splice: junction, butt splice
        bar: bus bar, busbar
        charge limiter: limiter, current limiter
        dc charger: dc-dc charger, b2b charger
        solar module: solar panel, panel, pv module
        charge controller: mppt, pwm, solar controller, solar regulator
        shore converter: mains charger, battery charger
        receiver: remote
        converter: dc-dc converter, buck converter
        appliance: tv, laptop, valve, solenoid valve, lock-out valve
    """,
    "chemistry": """
        flooded: wet, lead acid, lead-acid
        lithium: lifepo4, lfp, lithium iron phosphate, li-ion
        agm: glass mat, absorbent glass mat
    """,
    "function": """
        stop: brake, brake light, brake lights, brake lamp, brakes, stop light, stop lights, stop lamp
        turn: indicator, indicators, blinker, blinkers, flasher, turn signal, turn signals, turn light, turn lamp
        tail: running, tailgate, rear, position, tail light, tail lights, tail lamp, running light, running lights
        plate: license, number plate, licence plate, license plate, plate light, plate lamp, license plate light
        marker: side marker
        reverse: backup, reversing, backup light, backup lights, back-up light, reverse light, reversing light
        clearance: end outline
    """,
    "colour": """
        violet: purple
        light brown: tan
        transparent: clear
    """,
    "side": """
        left: l
        right: r
        middle: center, centre, central
        both: pair
    """,
    "country": """
        US: usa, america, united states
        GB: uk, united kingdom, england
        CA: canada
        DE: germany
        IE: ireland
        AT: austria
        CH: switzerland
        NL: netherlands
        FR: france
        ES: spain
        IT: italy
        BE: belgium
        SE: sweden
        NO: norway
        DK: denmark
        FI: finland
        PL: poland
        AU: australia
        NZ: new zealand
        PT: portugal
    """,
    "units": """
        feet: imperial, inches, us
        metric: si, metres, meters
    """,
    "paper": """
        letter: us letter
        A4: din a4
    """,
    "sold as": """
        pair: pairs, duplex, twin, two-core
        single: single core, singles
    """,
    "drum": """
        7 in: 7, 7 inch, 7 inches, 7", 7in
        10 in: 10, 10 inch, 10 inches, 10", 10in
        12 in: 12, 12 inch, 12 inches, 12", 12in
    """,
    "pattern": """
        4-way flat: flat four, flat 4, 4 flat, 4 pin flat, 4-pin flat, 4-pin, 4 pin, 4 wire
        5-way flat: flat five, flat 5, 5 flat, 5-pin flat, 5 pin flat, 5-pin, 5 pin
        6-way round: 6 pin round, 6-pin round, 6-pin, 6 pin
        7-way blade: 7 way rv, 7-way rv, rv 7 way, rv 7-way, 7 pin rv, 7-pin rv, rv plug, rv, 7 blade, 7-pin blade,
          7 pin blade
        7-pin 12N: 12n, 7 pin 12n, 7-pin uk, 7-pin european
        13-pin: 13 pole, 13-pole, 13 way, 13-way, 13 pin euro, 13-pin euro, 13-pin european
        12-pin Australian: 12 pin, 12-pin, 12 pin flat, 12-pin flat
    """,
    "fuses": """
        blade regular: blade, ato, atc, standard
    """,
}
