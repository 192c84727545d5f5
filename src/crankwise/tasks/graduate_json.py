"""The answer for graduated work as a plain object, ready for JSON.

Angles are exact texts in degrees; lengths are numbers in millimetres, good to 1e-9 mm.
"""

from typing import Any

from crankwise.exact.number import as_text
from crankwise.part.collisions import Collision
from crankwise.part.graduated import Graduated, Line
from crankwise.part.numeral_fixes import Fix
from crankwise.tasks.answers import FORMAT
from crankwise.tasks.gear_json import card_object
from crankwise.tasks.graduate import Graduation
from crankwise.wording.graduate import collision_text, direction_lines, finding_text, fix_text


def graduate_object(answer: Graduation) -> dict[str, Any]:
    """Return the whole answer."""
    work, asked = answer.work, answer.asked
    told: dict[str, Any] = {
        "format": FORMAT,
        "kind": "graduated",
        "name": work.scale.name,
        "on": work.surface.kind,
        "diameter_mm": float(work.surface.diameter_mm),
        "exact": work.scale.is_exact,
        "comes_round": work.scale.comes_round,
        "note": work.scale.note,
        "lines": [_line(answer, line) for line in answer.lines],
        "least_spacing_mm": work.least_spacing_mm,
        "classes": [
            {
                "class": piece.line_class.name,
                "every": as_text(piece.line_class.every),
                "length_mm": float(piece.line_class.length_mm),
                "width_mm": float(piece.line_class.width_mm),
                "depth_mm": None if piece.line_class.depth_mm is None else float(piece.line_class.depth_mm),
                "stop_piece_mm": float(piece.thickness_mm),
                "lines": sum(line.line_class.name == piece.line_class.name for line in answer.lines),
            }
            for piece in answer.stop_pieces
        ],
        "numerals": _numerals(work),
        "collisions": [_collision(found, answer.lines) for found in answer.collisions],
        "largest_numeral_mm": None if answer.largest_height_mm is None else float(answer.largest_height_mm),
        "largest_stamp": answer.largest_stamp[0] if answer.largest_stamp else None,
        "fixes": [_fix(one) for one in answer.fixes],
        "orders": [
            {
                "order": order.name,
                "strokes": [{"class": name, "lines": count} for name, count in order.strokes],
                "stop_changes": order.stop_changes,
                "spindle_turns": as_text(order.spindle_turns),
            }
            for order in answer.orders
        ],
        "direction": {
            "moves": asked.direction.moves,
            "turns": asked.direction.turns,
            "faces": asked.direction.side,
            "numbers_run": asked.direction.numbers_run,
            "work_turns": asked.direction.work_turns,
            "numbered_backwards": asked.is_turned_round,
            "says": [*direction_lines(asked.direction, work.surface.kind == "drum", asked.is_turned_round)],
        },
        "findings": [
            {"code": found.code, "value": found.value, "says": finding_text(found)}
            for found in answer.findings
        ],
        "cards": [card_object(card) for card in answer.cards],
    }
    if asked.scale.vernier:
        vernier = asked.scale.vernier
        told["vernier"] = {
            "parts": vernier.parts,
            "over": vernier.over,
            "form": vernier.form,
            "least_count": as_text(vernier.least_count * 360),
            "arc": as_text(vernier.arc * 360),
            "zero": as_text(vernier.zero * 360),
            "runs_with": vernier.runs_with,
        }
    if answer.threads:
        told["threads"] = [
            {"lead_mm": float(lead), "places": as_text(places)} for lead, places, _ in answer.threads
        ]
    return told


def _line(answer: Graduation, line: Line) -> dict[str, Any]:
    told: dict[str, Any] = {
        "position": line.position,
        "angle": as_text(line.angle * 360),
        "class": line.line_class.name,
        "length_mm": float(line.line_class.length_mm),
        "count": as_text(line.count),
        "numeral": line.numeral,
    }
    offsets = answer.figure_offsets(line)
    if offsets:
        told["figure_offsets_deg"] = [round(offset * 360, 9) for offset in offsets]
    return told


def _numerals(work: Graduated) -> dict[str, Any] | None:
    if work.numerals is None:
        return None
    numerals = work.numerals
    return {
        "every": None if numerals.own else as_text(numerals.every),
        "height_mm": float(numerals.lettering.height_mm),
        "burr_mm": float(numerals.lettering.burr_mm),
        "shank_mm": float(numerals.lettering.shank_mm),
        "stand": numerals.stand,
        "feet": "away" if numerals.feet_out else "edge",
        "behind": numerals.behind,
        "middle_mm": work.middle_mm,
    }


def _collision(found: Collision, lines: tuple[Line, ...]) -> dict[str, Any]:
    return {
        "thing": found.thing,
        "position": found.position,
        "text": found.text,
        "other": found.other,
        "other_position": found.other_position,
        "gap_mm": found.gap_mm,
        "needed_mm": found.needed_mm,
        "overlaps": found.overlaps,
        "says": collision_text(found, lines),
    }


def _fix(one: Fix) -> dict[str, Any]:
    return {"change": one.kind, "to": float(one.value), "says": fix_text(one)}
