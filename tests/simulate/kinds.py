"""Holds of other kinds than the demonstration's, and clean procedures for them, all written by hand.

SECT is loaded by hand, piece by piece, behind nets. MIX takes pallets across both rows as well as two
containers abreast. What is right and wrong in them is common practice of the trade, no source.
"""

SECT_HOLD = """\
hold: SECT
title: Bulk hold with three sections
aircraft: T-1
demonstration: true
sources:
  WB: {title: Test data (invented), issue: "1", date: "2026-01-01"}
floor:
  x: [10.00 m, 16.00 m]
  y: [-1.00 m, 1.00 m]
  height: 1.10 m
  surface: flat floor
  bears-on-floor: true
load-factors: {kind: limit, forward: 1.5 g, aft: 1.5 g, left: 1.2 g, right: 1.2 g, up: 1.8 g, source: WB 1}
doors:
  bulk-door:
    {name: bulk door, side: left, x: [12.00 m, 14.00 m], clear: {width: 1.20 m, height: 0.90 m},
     sill: 1.60 m, wind: {opening: 40 kt, open: 60 kt, source: WB 2}, close-needs: {door-net: raised}}
bays:
  "51": {x: [10.00 m, 12.00 m], y: [-1.00 m, 1.00 m], position: true, bulk: true}
  "50": {x: [12.00 m, 14.00 m], y: [-1.00 m, 1.00 m], position: true, bulk: true, door: bulk-door}
  "52": {x: [14.00 m, 16.00 m], y: [-1.00 m, 1.00 m], position: true, bulk: true}
lanes:
  - {go: in, through: [outside, "50"]}
  - {go: forward, through: ["50", "51"]}
  - {go: aft, through: ["50", "52"]}
restraints:
  door-net: {name: door net, kind: net, between: [outside, "50"], stops: [in, out], moved-by: hand,
    reached-from: outside, at-rest: raised, rating: {left: 20 kN}, source: WB 4}
  net-51: {name: net 51, kind: net, between: ["50", "51"], stops: [forward, aft], moved-by: hand,
    reached-from: inside, at-rest: lowered, when-vacant: either, grips: true,
    rating: {forward: 20 kN, aft: 20 kN}, source: WB 4}
  net-52: {name: net 52, kind: net, between: ["50", "52"], stops: [forward, aft], moved-by: hand,
    reached-from: inside, at-rest: raised, grips: true, rating: {forward: 20 kN, aft: 20 kN}, source: WB 4}
  walls: {name: walls, kind: rail, beside: ["50", "51", "52"], stops: [in, out, forward, aft], fixed: true,
    rating: {forward: 60 kN, aft: 60 kN, left: 60 kN, right: 60 kN, up: 60 kN}, source: WB 4}
positions:
  "50": {held-by: [door-net, net-51, net-52, walls], max: {TLP: 600 kg}, source: WB 5}
  "51": {held-by: [net-51, walls], max: {TLP: 600 kg}, source: WB 5}
  "52": {held-by: [net-52, walls], max: {TLP: 600 kg}, source: WB 5}
zones: {}
"""

SECT_IN = """\
procedure: p
title: Three sections filled by hand, the far ones first
hold: SECT
operation: loading
units:
  u51: {type: TLP, bay: "51"}
  u52: {type: TLP, bay: "52"}
  u50: {type: TLP, bay: "50"}
steps:
  - open: bulk-door
  - remove: door-net
  - remove: net-52
  - present: u51
  - stow: {unit: u51, crew: 2, through: [outside, "50", "51"]}
  - fit: net-51
  - present: u52
  - stow: {unit: u52, crew: 2, through: [outside, "50", "52"]}
  - fit: net-52
  - present: u50
  - stow: {unit: u50, crew: 2, through: [outside, "50"]}
  - check: everyone-out
  - fit: door-net
  - close: bulk-door
  - check: {latched: bulk-door, by: closer}
  - check: {latched: bulk-door, by: second-person}
"""

SECT_OUT = """\
procedure: p
title: Two sections emptied by hand
hold: SECT
operation: unloading
units:
  u50: {type: TLP, bay: "50"}
  u51: {type: TLP, bay: "51"}
steps:
  - open: bulk-door
  - remove: door-net
  - stow: {unit: u50, crew: 2, through: ["50", outside]}
  - remove: net-51
  - stow: {unit: u51, crew: 2, through: ["51", "50", outside]}
  - check: everyone-out
  - fit: door-net
  - close: bulk-door
  - check: {latched: bulk-door, by: closer}
  - check: {latched: bulk-door, by: second-person}
"""

MIX_HOLD = """\
hold: MIX
title: Hold for pallets across both rows and for containers abreast
aircraft: T-1
demonstration: true
sources:
  WB: {title: Test data (invented), issue: "1", date: "2026-01-01"}
floor:
  x: [10.00 m, 13.40 m]
  y: [-1.70 m, 1.70 m]
  height: 1.30 m
  surface: roller track
load-factors: {kind: limit, forward: 1.5 g, aft: 1.5 g, left: 1.2 g, right: 1.2 g, up: 1.8 g, source: WB 1}
doors:
  side-door:
    {name: side door, side: right, x: [11.70 m, 13.40 m], clear: {width: 1.70 m, height: 1.28 m},
     sill: 1.50 m, wind: {opening: 40 kt, open: 60 kt, source: WB 2}, close-needs: {sill-lock: raised}}
bays:
  1R: {x: [10.00 m, 11.65 m], y: [0.05 m, 1.65 m], position: true}
  1L: {x: [10.00 m, 11.65 m], y: [-1.65 m, -0.05 m], position: true}
  2R: {x: [11.75 m, 13.40 m], y: [0.05 m, 1.65 m], position: true, door: side-door}
  2L: {x: [11.75 m, 13.40 m], y: [-1.65 m, -0.05 m], position: true}
  1P: {x: [10.00 m, 11.65 m], y: [-1.65 m, 1.65 m], position: true}
  2P: {x: [11.75 m, 13.40 m], y: [-1.65 m, 1.65 m], position: true, door: side-door}
lanes:
  - {go: in, through: [outside, 2R, 2L]}
  - {go: in, through: [outside, 2P]}
  - {go: forward, through: [2R, 1R]}
  - {go: forward, through: [2L, 1L]}
  - {go: forward, through: [2P, 1P]}
power: {switch: power-switch, "on": "on", "off": "off", needs: {sill-lock: lowered}}
controls:
  power-switch: {name: power switch, kind: switch, positions: ["off", "on"]}
  stick: {name: drive stick, kind: stick, positions: [centre, in, out, forward, aft], hold-to-run: true}
  edge-lever: {name: edge lever, kind: lever, positions: [up, down], hold-to-run: true}
drives:
  floor-drive: {name: floor drive, under: [1R, 1L, 2R, 2L, 1P, 2P], run-by: stick,
    go: [in, out, forward, aft]}
restraints:
  sill-lock: {name: sill lock, kind: lock, between: [outside, 2R], stops: [in, out], moved-by: hand,
    reached-from: outside, at-rest: raised, rating: {right: 30 kN}, source: WB 4}
  edge-stop: {name: edge stop, kind: stop, between: [outside, 2R], stops: [in, out],
    lowered-by: {edge-lever: down}, returns: spring, at-rest: raised, rating: {right: 30 kN}, source: WB 4}
  centre-1: {name: centre guide 1, kind: guide, between: [1R, 1L], stops: [in, out], moved-by: hand,
    reached-from: inside, at-rest: raised, rating: {left: 30 kN, right: 30 kN}, source: WB 4}
  centre-2: {name: centre guide 2, kind: guide, between: [2R, 2L], stops: [in, out], moved-by: hand,
    override: [in], returns: spring, reached-from: inside, at-rest: raised,
    rating: {left: 30 kN, right: 30 kN}, source: WB 4}
  lock-R: {name: right lock, kind: lock, between: [2R, 1R], stops: [forward, aft], moved-by: hand,
    reached-from: inside, at-rest: lowered, rating: {forward: 30 kN, aft: 30 kN}, source: WB 4}
  lock-L: {name: left lock, kind: lock, between: [2L, 1L], stops: [forward, aft], moved-by: hand,
    reached-from: inside, at-rest: lowered, rating: {forward: 30 kN, aft: 30 kN}, source: WB 4}
  walls: {name: walls, kind: rail, beside: [1R, 1L, 2R, 2L, 1P, 2P], stops: [forward, aft, in, out],
    fixed: true, rating: {forward: 60 kN, aft: 60 kN, left: 60 kN, right: 60 kN, up: 60 kN}, source: WB 4}
positions:
  1R: {held-by: [walls, lock-R, centre-1], max: {K: 1200 kg}, contours: [H], source: WB 5}
  1L: {held-by: [walls, lock-L, centre-1], max: {K: 1200 kg}, contours: [H], source: WB 5}
  2R: {held-by: [walls, lock-R, centre-2, edge-stop, sill-lock],
    max: {K: 1200 kg}, contours: [H], source: WB 5}
  2L: {held-by: [walls, lock-L, centre-2], max: {K: 1200 kg}, contours: [H], source: WB 5}
  1P: {held-by: [walls, lock-R, lock-L], max: {TW: 2400 kg}, contours: [H], source: WB 5}
  2P: {held-by: [walls, lock-R, lock-L, edge-stop, sill-lock],
    max: {TW: 2400 kg}, contours: [H], source: WB 5}
zones: {}
"""

MIX_IN = """\
procedure: p
title: A pallet in front, two containers behind it
hold: MIX
operation: loading
units:
  uP: {type: TPW, bay: 1P}
  uL: {type: AKH, bay: 2L}
  uR: {type: AKH, bay: 2R}
steps:
  - open: side-door
  - lower: sill-lock
  - set: {power-switch: "on"}
  - lower: centre-1
  - present: uP
  - check: path-clear # for uP
  - drive: {unit: uP, hold: {stick: in, edge-lever: down}, through: [outside, 2P]}
  - drive: {unit: uP, hold: {stick: forward}, through: [2P, 1P]}
  - raise: lock-R
  - raise: lock-L
  - present: uL
  - check: path-clear # for uL
  - drive: {unit: uL, hold: {stick: in, edge-lever: down}, through: [outside, 2R, 2L]}
  - present: uR
  - check: path-clear # for uR
  - drive: {unit: uR, hold: {stick: in, edge-lever: down}, through: [outside, 2R]}
  - check: everyone-out
  - raise: sill-lock
  - set: {power-switch: "off"}
  - close: side-door
  - check: {latched: side-door, by: closer}
  - check: {latched: side-door, by: second-person}
"""

MIX_OUT = """\
procedure: p
title: A pallet at the door and one in front of it
hold: MIX
operation: unloading
units:
  uB: {type: TPW, bay: 2P}
  uA: {type: TPW, bay: 1P}
steps:
  - open: side-door
  - lower: sill-lock
  - set: {power-switch: "on"}
  - check: path-clear # for uB
  - drive: {unit: uB, hold: {stick: out, edge-lever: down}, through: [2P, outside]}
  - lower: lock-R
  - lower: lock-L
  - lower: centre-2
  - check: path-clear # for uA
  - drive: {unit: uA, hold: {stick: aft}, through: [1P, 2P]}
  - drive: {unit: uA, hold: {stick: out, edge-lever: down}, through: [2P, outside]}
  - raise: centre-1
  - raise: centre-2
  - check: everyone-out
  - raise: sill-lock
  - set: {power-switch: "off"}
  - close: side-door
  - check: {latched: side-door, by: closer}
  - check: {latched: side-door, by: second-person}
"""

FLEET_TYPES = """\
unit-types:
  TLP: {title: loose pieces of the test, loose: true, max-gross: 900 kg, source: ULD 9}
  TPW: {title: pallet across both rows of the test, base: TW, height: 1143 mm, contour: H, max-gross: 2200 kg,
    source: ULD 9}
"""
FLEET_BASES = "  TW: {length: 1534 mm, width: 3120 mm, source: ULD 9}\n"
