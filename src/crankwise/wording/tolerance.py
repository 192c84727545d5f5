"""The words of a pitch tolerance: what a class allows, and what a measured gear reaches."""

from crankwise.accuracy.tolerance import RECALLED, Judged
from crankwise.wording.accuracy import ACROSS_THE_SHAFT, both, class_text, micrometres, thou
from crankwise.wording.figures import short


def tolerance_lines(judged: Judged) -> list[str]:
    """Return the answer, a line each."""
    gear, standard = judged.gear, judged.standard
    module = f"module {short(gear.module_mm)} mm"
    if gear.helix:
        module = f"normal {module}, helix {short(gear.helix * 360)}°"
    lines = [f"{gear.teeth} teeth, {module}, reference diameter {short(gear.diameter_mm)} mm"]
    if judged.allowed:
        printed = standard.printed(judged.allowed)
        single = f"±{printed.single_pitch:g} µm ({thou(judged.allowed.single_pitch)} thou)"
        cumulative = f"{printed.cumulative_pitch:g} µm ({thou(judged.allowed.cumulative_pitch)} thou)"
        lines.append(f"{standard.name}, class {judged.grade}:")
        lines.append(f"  single pitch {single}, worked out {micrometres(judged.allowed.single_pitch)}")
        lines.append(
            f"  cumulative pitch {cumulative}, worked out {micrometres(judged.allowed.cumulative_pitch)}"
        )
    if judged.measured and judged.reached:
        reached = judged.reached
        single, cumulative = both(judged.measured.single_pitch), both(judged.measured.cumulative_pitch)
        lines.append(f"as measured, by {standard.name}: {class_text(reached.gear, standard)}")
        lines.append(f"  single pitch {single}: {class_text(reached.single_pitch, standard)}")
        lines.append(f"  cumulative pitch {cumulative}: {class_text(reached.cumulative_pitch, standard)}")
        if judged.allowed:
            verdict = "keeps" if judged.keeps_it else "does not keep"
            lines.append(f"The gear {verdict} class {judged.grade} in its pitch.")
    if gear.helix:
        lines.append(ACROSS_THE_SHAFT)
    if RECALLED in standard.source:
        lines.append(f"{standard.name}: {RECALLED}.")
    return lines
