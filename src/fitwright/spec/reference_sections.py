"""What stands on docs/yaml.md, in which order: introduction, sections with their grammar models, notes."""

from __future__ import annotations

from fitwright.spec.grammar import (
    air,
    covers,
    flange,
    gate,
    gate_blade,
    gate_bracket,
    gate_cylinder,
    gauge,
    halves,
    joints,
    measured,
    near_heat,
    outline,
    own_materials,
    own_printers,
    parts,
    places,
    plate,
    plate_made,
    plate_matches,
    plate_openings,
    plate_patterns,
    profiles,
    ridge,
    screws,
    sections,
    slit,
)
from fitwright.spec.grammar import envelope as e
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.measuring import bolts, circle, printer, sleeve, thread
from fitwright.spec.reference_hanger import HANGER_NOTE, HANGER_SECTION, HANGER_TITLE
from fitwright.spec.reference_run import RUN_NOTE, RUN_SECTION, RUN_TITLE

INTRODUCTION = """\
# The YAML

This page is drawn from the program's own grammar by `fitwright.spec.reference`; a test keeps it up to date. An editor
that knows JSON Schema completes and checks the same with [fitwright.schema.json](fitwright.schema.json).

A part is three to ten lines:

```yaml
part: reducer
end_a: {label: wall run, socket: {over: [107.0, 107.3, 107.1]}}
end_b: {label: saw hose, hose_tail: {hose_inside: 4 in}}
near_heat: 45 C
```

**Numbers.** A plain number is in the file's `units` (mm, or in). A length may carry its own unit and fractions:
`98.4 mm`, `3 7/8 in`, `4"`, `1/2`. Angles are degrees, temperatures deg C (or `140 F`); air flow and pressure need
their unit. A limit in mm holds in inch files as well. `auto` leaves a value to the program, and the report says what it
chose. What could be misread (`010`, `1:30`, `yes` for a number, a key written twice) is refused by name, with its line.

**Directions.** Stand at `end_a` and look into its mouth: `right`, `up`, and `away` from you; `left`, `down`, `toward`
are the opposite. Everything is measured from the centre of that mouth's face. Holes and `clock` turn clockwise from up.

**Several parts** in one file go under `parts:`, a list; each takes the file's other keys where it has none of its own:

```yaml
material: PETG
parts:
  - {part: reducer, name: guard, end_a: {hose_tail: {hose_inside: 50}}, end_b: {socket: {over: 80.1}}}
  - {part: reducer, name: extractor, end_a: {socket: {over: 80.1}}, end_b: {spigot: {into: 100.2}}}
```
"""

SECTIONS: tuple[tuple[str, tuple[tuple[str, type[Grammar]], ...]], ...] = (
    (
        "A part",
        (
            ("Any part", parts.PartKeys),
            ("Any adapter", parts.AdapterKeys),
            ("`part: reducer`", parts.ReducerKeys),
            ("`part: offset_adapter`", parts.OffsetAdapterKeys),
            ("`part: fit_gauge`", gauge.FitGaugeKeys),
            ("`rings`", gauge.RingsKeys),
            ("`plugs`", gauge.PlugsKeys),
            ("`slit`", slit.SlitKeys),
            ("`air`", air.AirKeys),
            ("`air` of a flange plate", air.PlateAirKeys),
            ("`fan`", air.FanKeys),
            ("an entry of `points` of a fan", air.FanPointKeys),
            ("`hose`", air.AirHoseKeys),
        ),
    ),
    (
        "An end and its joint",
        (
            ("`end_a`, `end_b`", joints.EndKeys),
            ("`socket`", joints.SocketKeys),
            ("`spigot`", joints.SpigotKeys),
            ("`hose_tail`", joints.HoseTailKeys),
            ("`flange`", flange.FlangeKeys),
            ("`rectangle`", flange.RectangleKeys),
            ("`covers`", covers.CoversKeys),
            ("`rectangle` of `covers`", covers.CoveredRectangle),
            ("an entry of an outline's `points`", outline.OutlinePoint),
            ("`holes`", screws.HolesKeys),
            ("`plain`", joints.PlainKeys),
            ("`clamp`", screws.ClampKeys),
            ("`screws`", screws.ScrewsKeys),
            ("`ridge`", ridge.RidgeKeys),
            ("`pitch` over some ribs", ridge.Ribs),
            ("`bond`", ridge.BondKeys),
        ),
    ),
    (
        "A part in two halves",
        (
            ("`halves`", halves.HalvesKeys),
            ("`joint`", halves.HalvesJointKeys),
            ("`bolts`", halves.HalvesBoltsKeys),
            ("`lap`", halves.HalvesLapKeys),
        ),
    ),
    (
        "A gate bracket",
        (
            ("`part: gate_bracket`", gate_bracket.GateBracketKeys),
            ("`gate`", gate.GateKeys),
            ("`sticks_out`", gate.SticksOutKeys),
            ("`blade`", gate_blade.BladeKeys),
            ("`plane`", gate_blade.PlaneKeys),
            ("`body` of a gate", gate.BodyKeys),
            ("`port` of a gate", gate.PortKeys),
            ("`stub`", gate.StubKeys),
            ("`screws` of a gate", gate.GateScrewsKeys),
            ("`clamp` of a gate", gate.GateClampKeys),
            ("`saddle`", gate.SaddleKeys),
            ("an entry of `proud`", gate.ProudKeys),
            ("`cylinder`", gate_cylinder.CylinderKeys),
            ("`nose`", gate_cylinder.NoseKeys),
            ("`nut`", gate_cylinder.NoseNutKeys),
            ("`boss`", gate_cylinder.BossKeys),
            ("`square`", gate_cylinder.SquareKeys),
            ("`body` of a cylinder", gate_cylinder.CylinderBodyKeys),
            ("`spring`", gate_cylinder.SpringKeys),
            ("`second_guide`", gate_bracket.GuideKeys),
            ("`board`", gate_bracket.BoardKeys),
            ("`support`", gate_bracket.SupportKeys),
        ),
    ),
    (HANGER_TITLE, HANGER_SECTION),
    (
        "A flange plate",
        (
            ("`part: flange_plate`", plate.FlangePlateKeys),
            ("`rectangle` of a plate", plate.PlateRectangleKeys),
            ("an entry of `openings`", plate_openings.PlateOpeningKeys),
            ("`holes` of a plate", plate_patterns.PlateHolesKeys),
            ("`sheet`", plate_made.SheetKeys),
            ("`gasket`", plate_made.GasketKeys),
            ("`matches`", plate_matches.MatchesKeys),
        ),
    ),
    (
        "Ways to measure a diameter",
        (
            ("A circumference", measured.Circumference),
            ("A catalogue size", measured.Catalogue),
            ("A port that tapers", measured.Tapered),
            ("A rectangular section", sections.RectangleForm),
            ("A slot-ended section", sections.OvalForm),
            ("`rectangle:` as a section", sections.RectangleSection),
            ("`oval:` as a section", sections.OvalSection),
            ("`points:` as a section", sections.PointsForm),
        ),
    ),
    (
        "Places and obstacles",
        (
            ("A place", places.PlaceKeys),
            ("A point", places.PointKeys),
            ("A direction", e.DirectionKeys),
            ("`envelope`", e.EnvelopeKeys),
            ("`wall`", e.WallKeys),
            ("`floor`", e.FloorKeys),
            ("`ceiling`", e.CeilingKeys),
            ("`point` and `normal`", e.PlaneKeys),
            ("`box`", e.BoxKeys),
            ("the faces of a box", e.BoxSides),
            ("`round_bar`", e.BarKeys),
            ("the ends of a bar", e.BarSides),
            ("`cone`", e.ConeKeys),
            ("the ends of a cone", e.ConeSides),
            ("`mesh`", e.MeshKeys),
        ),
    ),
    (
        "Readings for `fitwright measure`",
        (
            ("`measure: circle`", circle.CircleKeys),
            ("`measure: bolts`", bolts.BoltsKeys),
            ("a distance by the holes' edges", bolts.ByEdges),
            ("`opening` of bolts", bolts.OpeningKeys),
            ("a distance from the opening's rim", bolts.ByRim),
            ("`measure: sleeve`", sleeve.SleeveKeys),
            ("`measure: thread`", thread.ThreadKeys),
            ("`pitch` over some threads", thread.OverThreads),
            ("`pitch` by a gauge", thread.GaugeLeaf),
            ("`measure: printer`", printer.PrinterReadingKeys),
            ("`gauges` of a printer", printer.GaugeKeys),
        ),
    ),
    (RUN_TITLE, RUN_SECTION),
    (
        "Printer and filament",
        (
            ("`printer`", profiles.PrinterKeys),
            ("`printer_profile`, a file of your own", own_printers.OwnPrinterKeys),
            ("`standard_errors`", own_printers.StandardErrorKeys),
            ("`material`", profiles.MaterialKeys),
            ("`material_profile`, a file of your own", own_materials.OwnMaterialKeys),
            ("`near_heat` beside a motor", near_heat.MotorHeatKeys),
        ),
    ),
)
NOTES = {
    "Readings for `fitwright measure`": (
        "A file whose top key is `measure` is no part but readings; the same keys may stand on the command line as "
        "`key=value`. Every kind takes `label` and `units` as well."
    ),
    "Printer and filament": (
        "`printer: NAME` is a profile of your own, `printers/NAME.yaml` beside the part's file or in a folder above it "
        "(the nearest counts), or a printer of the tables. `fitwright measure printer` writes such profiles: see "
        "[measuring a printer](measuring/printer.md). `material: NAME` is found in the same way, in "
        "`materials/NAME.yaml`: see [materials](materials.md), also for what the numbers of the tables are worth."
    ),
    "A gate bracket": (
        "Lay the gate on the bench, the blade coming out away from you: right, away (the way the blade comes out) and "
        "up, measured from the middle of the blade at the body's edge. A list is readings of one length: their mean "
        "counts, of thicknesses, widths and forces the greatest. `cylinder` is a name of the tables, that name "
        "under `code` with your readings beside it, or readings alone. See "
        "[gate brackets](families/gate_bracket.md) for what to measure and how."
    ),
    "A flange plate": (
        "Stand in front of the plate, what it is bolted to behind it: right and up, measured from the plate's middle. "
        "`openings` and `holes` are one, or a list of several. See [flange plates](families/flange_plate.md)."
    ),
    HANGER_TITLE: HANGER_NOTE,
    RUN_TITLE: RUN_NOTE,
    "A part in two halves": (
        "For a part that is larger than the bed: `halves: auto`, or say where. `across` is a saw cut square to the "
        "passage, like cutting a pipe to length. `along: up` is a cut the long way, like halving a pea pod: the blade "
        "stands upright in end_a's axis and parts the left half from the right; `along: right` lays the blade flat "
        "and parts upper from lower. See [halves](checks/halves.md)."
    ),
    "An end and its joint": (
        "An end has exactly one joint. The joint's size stands under one key, which says which face was measured: "
        "`over` or `pipe`, `into` or `pipe`, `hose_inside` or `hose`. See [joints](joints.md) for what is made of it."
    ),
    "Ways to measure a diameter": (
        "`over`, `into`, `hose_inside` and `inside` take one reading (`107.1`), a list of readings taken round the "
        "part (`[110.2, 110.5, 109.9]`: their mean counts, their spread is allowed for, and oval parts are named), or "
        "one of these maps. `over`, `into`, `inside` and a flange's `opening` also take a section that is not round: "
        "`{rectangle: {...}}`, `{oval: {...}}` (slot-ended) or `{points: [...]}`."
    ),
}
