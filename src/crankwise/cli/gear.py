"""Size a spur, helical or bevel gear: blank, cutter, depth, and what to measure, in both systems of units.

examples:
  crankwise gear --teeth 127 --module 1
      the preparation card and the measuring card of a spur gear
  crankwise gear --teeth 40 --dp 24 --pressure-angle 14.5 --pin 0.072in,0.08in
      by diametral pitch; measured over the better of the pins owned
  crankwise gear --teeth 127 --module 1 --blank 128.9mm --read-span 44.75mm
      the depth on the blank as it was turned, and how much deeper to go for what was read
  crankwise gear --teeth 12 --module 3 --shift 0.6 --mate 24 --mate-shift 0.36
      two gears: centre distance, contact ratio, interference
  crankwise gear --teeth 30 --module 2 --helix 30 --face 20mm --leadscrew 5mm --head examples/plate-head.toml
      a helical gear, with the change gears for its lead and the error that they leave over the face
  crankwise gear --teeth 24 --dp 10 --bevel --mate 36 --face 3/4in
      a straight bevel gear, cut approximately with form cutters
  crankwise gear --teeth 127 --module 1 --job wheel.toml
      the cards, and a job file with which it can be divided, printed and done again
  crankwise gear --teeth 127 --module 1 --json
      for a program: lengths as numbers in millimetres
"""

import argparse
import json
from collections.abc import Iterable

from crankwise.cli.asking import job_head_argument, job_out_argument, json_argument, keep_job, named_head
from crankwise.cli.parser import BadCommand
from crankwise.exact.number import as_text
from crankwise.tasks.asked_gear import GearTyped
from crankwise.tasks.bevel import BevelAnswer, bevel_answer
from crankwise.tasks.gear import GearAnswer, ShopTyped, gear_answer
from crankwise.tasks.helix import HelixTyped

MOST_WAYS_TOLD = 6
_GEAR = {
    "--teeth": ("N", "number of teeth, 5 or more"),
    "--module": ("M", "module in mm: pitch diameter over teeth, as 1 or 1.25"),
    "--dp": ("P", "instead of a module: diametral pitch, teeth to an inch of pitch diameter, as 24"),
    "--pressure-angle": ("A", "in degrees, 10 to 35 (default 20; older gears have 14.5)"),
    "--shift": ("X", "profile shift in modules, as 0.3 (default 0)"),
    "--helix": ("A", "helix angle in degrees, to 60 (default 0: a spur gear)"),
    "--hand": ("HAND", "hand of the helix: right or left (default right)"),
    "--system": ("NAME", "full-depth, inch, inch-fine, sixth or stub (default full-depth, with --dp inch)"),
    "--thin": (
        "LENGTH",
        "how much thinner to leave each tooth, and the mate's, for backlash, as 0.05mm",
    ),
    "--mate": ("N", "teeth of the gear it runs with"),
    "--mate-shift": ("X", "the mate's profile shift in modules (default 0)"),
    "--centres": ("LENGTH", "distance at which the two are set, as 56.5mm (default: without backlash)"),
    "--face": ("LENGTH", "width of the teeth, as 20mm or 3/4in"),
    "--shaft-angle": ("A", "with --bevel: angle between the shafts in degrees (default 90)"),
    "--cutter-width": ("LENGTH", "with --bevel: width of the cutter one dedendum from its tip, as 2.9mm"),
}
_SHOP = {
    "--pin": ("LIST", "diameters of the pins owned: 1.728mm, 1/16in (bare: mm; default: the best pin)"),
    "--span": ("K", "teeth to measure the span over (default: the best count)"),
    "--blank": ("DIAMETER", "the blank's outside diameter as measured, as 128.9mm: corrects the depth"),
    "--deepest-cut": ("LENGTH", "the deepest roughing cut your machine takes in good order (default 2 mm)"),
    "--read-span": ("LENGTH", "what a span reads, as 50.8mm: says how much deeper to go"),
    "--read-pins": ("LENGTH", "what is read over the pins, as 131.3mm: the same"),
    "--read-chord": ("LENGTH", "what a tooth calliper reads, as 1.6mm: the same"),
    "--cutters": (
        "SET",
        "8: a set of 8 (default); 15: with the half numbers; or a file of those you own (TOML)",
    ),
    "--number-one": (
        "TEETH",
        "what your No. 1 cuts: rack or 12 teeth (default 12 with --module, rack with --dp)",
    ),
}
_HELIX = {
    "--leadscrew": ("LENGTH", "with --helix: lead of the table's screw, as 5mm or 1/4in"),
    "--gears": ("LIST", "with --leadscrew: teeth of the change gears owned, where no head file has them"),
    "--head-ratio": (
        "R",
        "with --leadscrew: turns of the worm for one of the spindle, where no head file has it",
    ),
    "--train": (
        "PAIRS",
        "with --leadscrew: the change gears to mount, drivers over driven, as 24/40 x 32/64 (default: the best)",
    ),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    for title, options in (("gear", _GEAR), ("workshop", _SHOP), ("helix", _HELIX)):
        group = command.add_argument_group(title)
        for option, (metavar, told) in options.items():
            group.add_argument(option, metavar=metavar, default="", help=told)
        if title == "gear":
            group.add_argument(
                "--transverse", action="store_true", help="module and angle are the transverse ones"
            )
            group.add_argument(
                "--bevel", action="store_true", help="a straight bevel gear; needs --mate and --face"
            )
        if title == "helix":
            job_head_argument(group, "with --leadscrew: its ratio and change gears; ")
    job_out_argument(command)
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Print the cards, or the answer as JSON."""
    typed = GearTyped(**_typed(arguments, _GEAR), transverse=arguments.transverse)
    shop = ShopTyped(**_typed(arguments, _SHOP))
    if not arguments.leadscrew:
        named_head(arguments)
    answer = _bevel(arguments, typed, shop) if arguments.bevel else _gear(arguments, typed, shop)
    if arguments.job:
        _keep_job(arguments, answer, typed, shop)
    if arguments.json:
        from crankwise.tasks.gear_json import bevel_object, gear_object

        told = bevel_object(answer) if isinstance(answer, BevelAnswer) else gear_object(answer)
        print(json.dumps(told, ensure_ascii=False))
        return 0
    from crankwise.wording.gear import gear_text, infeed_text

    print(gear_text(answer.name, answer.cards, answer.warnings, answer.inch_first, _kind(answer)))
    if isinstance(answer, GearAnswer):
        for one in answer.infeeds:
            print(infeed_text(one.told, one.read_mm, one.meant_mm, one.deeper_mm, answer.inch_first))
        _tell_helix(answer)
    return 0


def _keep_job(
    arguments: argparse.Namespace, answer: GearAnswer | BevelAnswer, typed: GearTyped, shop: ShopTyped
) -> None:
    from dataclasses import asdict

    from crankwise.files.job_toml import asked_part
    from crankwise.tasks.helix import kept_helix

    asked = asdict(typed) | asdict(shop)
    if isinstance(answer, GearAnswer):
        asked |= asdict(kept_helix(HelixTyped(**_typed(arguments, _HELIX)), answer.helix))
    part = asked_part(_kind(answer), asked)
    keep_job(arguments.job, part, answer.name, arguments.head)


def _kind(answer: GearAnswer | BevelAnswer) -> str:
    """The kind of part, as in a job file."""
    if isinstance(answer, BevelAnswer):
        return "bevel"
    return "helical" if answer.gear.is_helical else "spur"


def _gear(arguments: argparse.Namespace, typed: GearTyped, shop: ShopTyped) -> GearAnswer:
    from crankwise.tasks.heads import load_head

    for option, text in (("shaft-angle", typed.shaft_angle), ("cutter-width", typed.cutter_width)):
        if text:
            raise BadCommand(f"--{option}: goes with a bevel gear; add --bevel, or leave it out")
    helix = HelixTyped(**_typed(arguments, _HELIX))
    return gear_answer(typed, shop, helix, load_head(arguments.head) if arguments.head else None)


def _bevel(arguments: argparse.Namespace, typed: GearTyped, shop: ShopTyped) -> BevelAnswer:
    for option in _HELIX:
        if _typed(arguments, {option: ()}).popitem()[1]:
            raise BadCommand(
                f"{option}: goes with a helical gear, not with a straight bevel gear; leave it out"
            )
    return bevel_answer(typed, shop)


def _typed(arguments: argparse.Namespace, options: Iterable[str]) -> dict[str, str]:
    names = [option.lstrip("-").replace("-", "_") for option in options]
    return {name: getattr(arguments, name) for name in names}


def _tell_helix(answer: GearAnswer) -> None:
    from crankwise.cli.tables import printed
    from crankwise.wording.division import worst_error_text
    from crankwise.wording.gear import DIFFERENTIAL_EXCLUDED, IDLERS_BY_TRIAL, helix_table
    from crankwise.wording.ways import method_name, setup_text

    if answer.helix is None:
        if answer.gear.is_helical:
            print(DIFFERENTIAL_EXCLUDED)
        return
    lead = answer.helix.lead
    rows = [(one.train, one.lead_mm, one.helix, one.error_mm) for one in answer.helix.trains]
    machine = as_text(lead.leadscrew * lead.ratio)
    print(f"\nChange gears, from the table's screw to the head (lead of the machine {machine} mm)")
    print(printed(*helix_table(rows)))
    print(IDLERS_BY_TRIAL)
    print(f"\n{DIFFERENTIAL_EXCLUDED}")
    if answer.helix.ways is not None:
        print("\nWays left on this head")
        for way in answer.helix.ways[:MOST_WAYS_TOLD]:
            print(f"  {method_name(way)}: {setup_text(way)}, {worst_error_text(way)}")
        if not answer.helix.ways:
            print("  none: it has no hole plate that divides so; the dial turns with the table's screw")
