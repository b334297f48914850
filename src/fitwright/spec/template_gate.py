"""The text of `fitwright new gate_bracket`: a gate on the bench, and a YAML that loads as it stands."""

from __future__ import annotations

GATE_PICTURE = r"""
Lay the gate on the bench, the blade coming out away from you. Right is right, away is the way
the blade comes out, up is square to the blade. All of `sticks_out` is measured from the body's
EDGE where the blade comes out (====), by tape, three times each: first shut, then pulled open.

     from above                                       from your right-hand side

           |<-- blade.width -->|                          up
            ___________________  ___                       |
           |         o         |  |   hole_to_edge         |        blade.thickness
           |                   |  |                        |          v
           |                   | sticks_out            ____|____   ______
      =====|===================|===== edge            |    |    |--------  blade
     |  o  |                   |  o  | from_edge      |  body   |
     |     |     .-------.     |     |                |_________|
     |     |    :  port   :    |     |                     :
     |     |     '-------'     |     |                body.thickness: by caliper
     |     |___________________|     |
     |_______________________________|
        |<------- across -------->|       screws.across: centre to centre of the two screws
     |<--------- body.width -------->|    that are nearest the edge
"""

GATE_BRACKET = """
# Change the numbers, delete what you do not need: part, gate (sticks_out, blade, body, screws) and cylinder are enough.
part: gate_bracket
units: mm                      # or in; a length may carry its own: 3 7/8 in, 98.4 mm, 4"

gate:
  sticks_out:                  # body edge to the blade's outer edge, by tape; one reading, or a list of them
    shut: [20.0, 20.5, 20.0]   # pushed in as far as it goes
    open: [126.0, 126.5, 126.0]   # pulled out as far as it is to go: the port just clear
  blade:
    width: 118                 # across
    thickness: [3.0, 3.05]     # by caliper, where the fork will sit
    hole: 5                    # the hole near the outer edge, by caliper; without one the blade is clamped
    hole_to_edge: 8            # from the hole's CENTRE: its near side to the edge, and half the hole
    # material: plastic        # acrylic, PVC, HDPE, PC, ABS, hardboard, plywood, aluminium, steel ...
    # plane: {below_top: 9.5}  # body's upper face down to the blade's; middle if absent
    # length: 160              # along, taken out
  body:
    width: 150                 # across, at the edge
    thickness: 22              # by caliper, at the edge
    # length: 160              # along the blade's way
    # far_end: open            # can you look out of the slot behind the blade? open or closed
    # far_end_room: 10         # how far the blade can be pushed in beyond shut
  screws: {across: 132, from_edge: 12, size: M5}   # the two that go through the body nearest the edge
  # or clamp: {size: M5}       # no screw there: grips the body's edges
  # or saddle: {band: 12}      # sits on the pipe stub (then port needs stub)
  # port: {diameter: 102, to_edge: 72, stub: {outside: 101.2, long: 40}}   # to_edge: its centre to the body edge
  # proud: [{label: knob, from_left: 20, from_edge: 40, across: 20, along: 20, high: 15}]
  # drag: [9 N, 12 N, 11 N]    # a spring balance on the blade, collector running; with its unit
  # suction: 10 inH2O          # what the collector pulls with at the shut gate

cylinder: ISO 6432 16 x 125    # standard, bore x stroke (`fitwright sizes cylinder` lists them)
# or what you read beside it:  {code: ISO 6432 16 x 125, rod_stub: 21.6, ports: up}
# or readings alone:           see docs/families/gate_bracket.md

# pressure: 6 bar              # or psi
# margin: 2                    # thrust over drag
# hold: nose                   # what holds the cylinder: nose, front_square or clamp
# stop: auto                   # who stops a stroke that is too long: sleeve, over_shut, over_open, none
# setting: 5                   # how far it can be set, either way
# frame: auto                  # one_piece, rods (two threaded rods) or board
# layout: in_line              # or alongside
# mounted: any                 # as it hangs on the wall: blade_up, blade_down or sideways
# guard: auto                  # yes, no
# rods: M8
# support: {down: 60}          # from the blade's middle down to what a second support may stand on
# closing_time: 2 s
# material: PETG               # PLA, PETG, ABS, ASA, PA
# printer: generic_220         # bed 220 x 220 x 240; or a map: {bed_x: 250, bed_y: 210, bed_z: 210}
# envelope:                    # what is in the way, measured from the middle of the blade at the body edge
#   keep_clear:
#     - {wall: right, at: 140, clearance: 3, label: post}
"""
