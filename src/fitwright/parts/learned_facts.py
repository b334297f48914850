"""What the report says of an end that earlier prints taught: its allowance, and what was taken off its size."""

from __future__ import annotations

from fitwright.spec.joints import End, HoseTail
from fitwright.spec.learned import Learned
from fitwright.spec.models import Printer
from fitwright.spec.printed import Face, FitJoint, excess_mm, face_of, grips_by_taper, table_mm
from fitwright.spec.taught import FIT_JOINTS


def learned_facts(end: End, key: str, printer: Printer) -> dict[str, str]:
    """The line `end_a from your prints`, where there are any (mm; the report converts)."""
    joint = end.joint
    if not isinstance(joint, FIT_JOINTS) or joint.learned is None:
        return {}
    said = [*_allowance(joint, joint.learned, printer), *size_words(joint.learned, face_of(joint))]
    return {f"{key} from your prints": "; ".join(said)} if said else {}


def prints_words(count: int) -> str:
    """`7 of your prints`, `1 of your prints`."""
    return f"{count} of your prints"


def _allowance(joint: FitJoint, learned: Learned, printer: Printer) -> list[str]:
    if not learned.verdicts:
        return []
    excess = excess_mm(joint, printer)
    kept = ""
    if abs(excess - learned.excess_mm) >= 0.005:
        kept = f"; {learned.excess_mm:+.2f} mm would not leave the fit asked for"
    source = (
        f"from {prints_words(learned.verdicts)} on {learned.printer} in {learned.material} "
        f"(give or take {learned.excess_give_or_take_mm:.2f} mm{kept})"
    )
    if grips_by_taper(joint):
        return [f"made {abs(excess):.2f} mm {'looser' if excess >= 0 else 'tighter'} where it grips, {source}"]
    table = _table_mm(joint, printer)
    total, of_it = round(table + excess, 2), round(table, 2)
    return [f"allowance {total:.2f} mm: table {of_it:.2f} mm, and {total - of_it:+.2f} mm {source}"]


def _table_mm(joint: FitJoint, printer: Printer) -> float:
    if isinstance(joint, HoseTail) or joint.fit == "stretch":
        return joint.allowance_mm or 0.0
    return table_mm(joint, printer)


def size_words(learned: Learned, face: Face) -> list[str]:
    """What was taken off the size of a face; nothing where nothing was."""
    error = learned.size_error_mm
    if abs(error) < 0.005:
        return []
    faces = "holes" if face == "hole" else "outsides"
    return [
        f"modelled {abs(error):.2f} mm {'smaller' if error >= 0 else 'larger'}, because {faces} came out "
        f"{abs(error):.2f} mm too {'large' if error >= 0 else 'small'} on {prints_words(learned.readings)} "
        f"(give or take {learned.size_error_give_or_take_mm:.2f} mm)"
    ]
