"""Every page there is, by the route that answers it: one list for the scan, the looks and the gallery of the docs.

A new page is one more chapter here, or one more view in a chapter; then `python -m tests.browser.pictures NAME`
takes its picture and writes docs/pages.md again. A route that shows no page stands in NOT_PAGES with the reason.
"""

from crankwise.web.part_forms import PART_FORMS
from tests.browser.conftest import DESK
from tests.browser.views import (
    Chapter,
    View,
    a_chord_is_missing,
    a_code_scanned,
    away,
    card_begun,
    card_home,
    card_lost,
    chords,
    full_size,
    hands_free,
    more,
    on_part,
    readings_brought,
    too_soon,
    wrong_answer,
    wrong_gear,
)

RUN = "/runs/{run_id}"
JOB = "/jobs/{job_id}"

CHAPTERS: tuple[Chapter, ...] = (
    Chapter(
        "Workbench",
        "The first page: runs to carry on with, and every job with its head, its way and its worst error.",
        (View("/", "/", "workbench-phone", "two runs to carry on, and the jobs below"),),
    ),
    Chapter(
        "Heads",
        "The gear you own, each described once. A head can be handed out as a file, and taken in from one.",
        (
            View("/heads", "/heads", "heads-phone", "the heads of the shed, each drawn small"),
            View("/heads/import", "/heads/import", "head-file-phone", "a head file to choose or to paste"),
            View("/heads/{head_id}", "/heads/2", "head-desk", "a head with its plates", DESK),
        ),
    ),
    Chapter(
        "Describe a head",
        "A form for wheel, dial, plates, ring and notches; the head is drawn beside it while it is filled in.",
        (
            View("/heads/{head_id}/edit", "/heads/1/edit", "describe-desk", "a head to mend", DESK),
            View("/heads/new", "/heads/new", "describe-phone", "an empty form"),
        ),
    ),
    Chapter(
        "Measure the head",
        "What a head was measured to be out, and each calibration it keeps; the plan of a measurement, to print or as "
        "a file to fill in; and the readings brought back, looked at before they are kept.",
        (
            View(
                "/heads/{head_id}",
                "{measured}#calibrations",
                "head-measured-desk",
                "its errors, before and after",
                DESK,
            ),
            View("/heads/{head_id}", "{measured}?calibration=2"),
            View(
                "/heads/{head_id}/measure",
                "{measured}/measure?reference=mirror&points=36",
                "measure-plan-phone",
                "what to set and read",
            ),
            View("/heads/{head_id}/measure", "{measured}/measure?reference=polygon&points=12"),
            View(
                "/heads/{head_id}/readings",
                "{measured}/readings",
                "readings-desk",
                "what the readings tell, one of them standing out",
                DESK,
                act=readings_brought,
            ),
            View("/heads/{head_id}/readings", "{measured}/readings"),
        ),
    ),
    Chapter(
        "Corrected settings",
        "A job on a head that was measured: every position before and after the correction, and what remains.",
        (
            View(JOB, "{corrected}?settings=corrected#ways", "corrected-desk", "127 parts, corrected", DESK),
            View(JOB, "{corrected}?settings=plain"),
        ),
    ),
    Chapter(
        "Centring",
        "How far off centre, which way, and how much at each screw: by an indicator, or by two opposite pointers.",
        (
            View(
                "/centring",
                "/centring?by=indicator&readings=0:0.00,90:0.03,180:0.05,270:0.02",
                "centring-phone",
                "which screw goes in",
            ),
            View(
                "/centring",
                "/centring?by=pointers&diameter=120&pointers=359.96:180.04,60:240,120.04:299.96,180.04:359.96",
                scheme="dark",
            ),
            View("/centring", "/centring?by=indicator&readings=x"),
        ),
    ),
    Chapter(
        "New job",
        "What is to be made: bare divisions at once, or a part of some kind. Or take a job in from its file.",
        (
            View("/jobs/new", "/jobs/new", "new-job-phone", "bare divisions, and the kinds of part"),
            View("/jobs/import", "/jobs/import", "job-file-phone", "a job file to choose or to paste"),
            View(
                "/jobs/new/spur", "/jobs/new/spur", "wrong-gear-phone", "what is wrong, told", act=wrong_gear
            ),
        ),
    ),
    Chapter(
        "New part",
        "What one kind of part asks: a few fields at the front, the rest folded away. One form for each kind.",
        tuple(
            View(f"/jobs/new/{kind}", f"/jobs/new/{kind}", f"new-{kind}-phone", form.title.lower())
            for kind, form in PART_FORMS.items()
        ),
    ),
    Chapter(
        "Job",
        "The part to scale, its cards to prepare and to measure by, its print at full size, and every way to divide "
        "it on your head, side by side. From here a run is begun and the sheet printed.",
        (
            View(JOB, "{spur}", "gear-desk", "a gear of 127 teeth and its cards", DESK),
            View(JOB, "{graduated}", "ring-desk", "a dial of 100 lines and its numerals", DESK),
            View(JOB, "{holes}", "holes-phone", "seven holes"),
            View(JOB, "{holes}", "print-phone", "its print at full size", act=full_size),
            View(JOB, "{flats}", "flats-phone-dark", "six flats", scheme="dark"),
            View(JOB, "/jobs/4", "ways-desk", "the ways to make a ring of 59 lines", DESK),
            *(
                View(JOB, f"{{{kind}}}")
                for kind in PART_FORMS
                if kind not in ("divisions", "spur", "graduated", "holes", "flats")
            ),
        ),
    ),
    Chapter(
        "How good will it be?",
        "The part predicted before it is cut: the way's rounding, the head's error and the finished part kept apart, "
        "the causes ranked, what would help most, and what if. Or cut it in the computer first.",
        (
            View(
                f"{JOB}/accuracy", "{spur}/accuracy", "accuracy-desk", "a gear of 127 teeth, predicted", DESK
            ),
            View(
                f"{JOB}/accuracy", "/jobs/1/accuracy", "accuracy-phone-dark", "the tide ring", scheme="dark"
            ),
            View(f"{JOB}/accuracy", "/jobs/4/accuracy?worm=much&lock=9..1"),
            View(
                f"{JOB}/accuracy/cut", "{spur}/accuracy/cut", "computer-cut-desk", "one cut, and many", DESK
            ),
            View(f"{JOB}/accuracy/cut", "/jobs/4/accuracy/cut?seed=x"),
        ),
    ),
    Chapter(
        "Measure the part",
        "What the measuring card asks for, typed place by place or pasted: how far the part is out, its class, what it "
        "points to, how it stands to the prediction. It is kept with its run, and its report is a PDF. Several parts "
        "say how good their head really is.",
        (
            View(f"{JOB}/measure", "{spur}/measure", "measure-phone", "what can be measured of a gear"),
            View(
                f"{JOB}/measure",
                "{holes}/measure",
                "holes-measured-phone-dark",
                "seven holes",
                scheme="dark",
                act=chords,
            ),
            View(f"{JOB}/measure", "{holes}/measure?what=position", act=a_chord_is_missing),
            View(
                f"{JOB}/measured/{{measurement_id}}",
                "{kept}",
                "measured-desk",
                "a wheel as it was measured",
                DESK,
            ),
            View(
                "/heads/{head_id}/parts",
                "/heads/1/parts",
                "head-parts-phone",
                "what five wheels say of their head",
            ),
            View("/heads/{head_id}/parts", "/heads/2/parts"),
        ),
    ),
    Chapter(
        "Run sheet",
        "Every position with its setting, to print: as a PDF for the clipboard, as one page, or as CSV and XLSX.",
        (
            View(f"{JOB}/sheet", "/jobs/1/sheet", "sheet-desk", "the first rows of the tide ring", DESK),
            View(f"{JOB}/sheet", "/jobs/4/sheet"),
            View(f"{JOB}/sheet", "/jobs/1/sheet?trace=1&order=lengths&lengths=12&page=2"),
            View(f"{JOB}/sheet", "/jobs/1/sheet?order=spread"),
            View(f"{JOB}/sheet.html", "/jobs/1/sheet.html", "sheet-page-desk", "the one page to print", DESK),
            View(f"{JOB}/sheet.html", "/jobs/1/sheet.html?trace=1&order=spread&circuits=3"),
            View(f"{RUN}/sheet", "{passes}/sheet", "run-sheet-phone", "the sheet of a run of two passes"),
            View(f"{RUN}/sheet.html", "{passes}/sheet.html", "run-sheet-page-phone", "the same, to print"),
        ),
    ),
    Chapter(
        "Run: before the first one",
        "Witness marks, zero, the trace, and which way the numbers run: asked once, and kept with the run.",
        (
            View(RUN, "{unbegun}", "run-begin-phone", "what is set and asked before the first position"),
            View(RUN, "{unbegun}", "run-doubted-phone", "an answer that the head denies", act=wrong_answer),
        ),
    ),
    Chapter(
        "Run: at a position",
        "The move, the reading to come up to, the ring check, the work, what is next; one large button. More holds "
        "the rest: skip, overshot, pause, where am I, bad, note, undo.",
        (
            View(RUN, "{begun}", "run-page", "whole turns, and the reading to come up to"),
            View(RUN, "{noted}", "run-more-phone", "all else that can be done", act=more),
            View(RUN, "{soon}", "run-too-soon-phone", "a second tap, asked about", act=too_soon),
            View(RUN, "{begun}", "run-hands-phone-dark", "spoken, sounded", scheme="dark", act=hands_free),
            View(RUN, "/runs/1", "run-stopped-phone-dark", "a run that the power stopped", scheme="dark"),
            View(RUN, "/runs/1", "run-stopped-desk", "the same on a desk", DESK),
            View(RUN, "{noted}", "run-on-part-desk", "where on the part position 88 lies", DESK, act=on_part),
            View(RUN, "{passes}"),
            View(RUN, "{along}", "run-along-phone", "a rack: how far along, not round"),
        ),
    ),
    Chapter(
        "Run: checks and faults",
        "At chosen positions the ring is asked for. Where it disagrees the likely fault is named, and what to do.",
        (
            View(RUN, "{check}", "run-check-phone", "the ring is asked for"),
            View(RUN, "{fault}", "run-fault-phone-dark", "a whole turn out", scheme="dark"),
            View(RUN, "{overshot}", "run-overshot-phone", "how far to back off and come up again"),
            View(RUN, "{fault}", "run-fault-desk", "the same fault on a desk", DESK),
            View(RUN, "{returning}", "run-first-phone", "back to the first line: does the tool fall in?"),
            View(RUN, "{missed}", "run-first-off-phone", "a slip too small for the ring, seen there"),
        ),
    ),
    Chapter(
        "Run: breaks and the end",
        "A pause says where the machine was left, and asks whether it stands there still. The last row closes "
        "the circle.",
        (
            View(RUN, "{paused}", "run-paused-phone", "a pause, and where the machine was left"),
            View(RUN, "{closing}", "run-closing-phone", "the closing row: the first line again"),
            View(RUN, "{finished}", "run-finished-phone", "all done"),
        ),
    ),
    Chapter(
        "Where am I?",
        "Type what the scales show: it says which positions agree, how surely, and how far the work has slipped.",
        (
            View(f"{RUN}/where", "{noted}/where?scale0=0.7&scale1=215", "where-phone", "a position is named"),
            View(f"{RUN}/where", "{fault}/where?{slipped}", "where-desk", "a slip is named", DESK),
            View(f"{RUN}/where", "{noted}/where?scale0=0.7&scale1=33"),
            View(f"{RUN}/where", "{noted}/where?scale0=x"),
            View(f"{RUN}/where", "{missed}/where"),
        ),
    ),
    Chapter(
        "Journal",
        "Everything tapped; what holds now, each with its undo. Nothing is ever taken out of it.",
        (View(f"{RUN}/journal", "{noted}/journal", "journal-phone", "a position marked bad, and its note"),),
    ),
    Chapter(
        "Away from the workshop",
        "When the network goes the run page goes on: taps are kept on the phone, and handed in when it is back.",
        (View(RUN, "{begun}", "run-away-phone", "one tap is kept on this phone", act=away),),
    ),
    Chapter(
        "Pocket card",
        "One file that is the run: worked on a phone with no network at all, and asked there where the machine stands. "
        "Its journal comes home as a file, as text, or as a code that another phone scans.",
        (
            View(
                f"{RUN}/pocket.html",
                "{begun}/pocket.html",
                "card-phone",
                "a card being worked",
                act=card_begun,
            ),
            View(
                f"{RUN}/pocket.html",
                "{noted}/pocket.html",
                "card-lost-phone",
                "where the machine stands, asked with no network",
                act=card_lost,
            ),
            View(f"{RUN}/pocket.html", "{noted}/pocket.html", scheme="dark", act=card_lost),
            View(
                f"{RUN}/pocket.html", "{begun}/pocket.html", "card-home-phone", "its journal", act=card_home
            ),
            View(f"{RUN}/bring", "{begun}/bring", "bring-phone", "where a journal is brought home"),
            View(f"{RUN}/bring", "{begun}/bring?journal=x"),
        ),
    ),
    Chapter(
        "Phones",
        "With `crankwise serve --lan` a phone on the shop's network joins by a code, and nobody else gets in.",
        (
            View("/phones", "/phones", "phones-desk", "the code, on the workshop's computer", DESK),
            View("/join", "/join?code=x"),
            View("/join", "/phones", "join-phone", "what the phone opens by it", act=a_code_scanned),
        ),
    ),
    Chapter(
        "About",
        "What Crankwise does and does not do, and the cautions.",
        (View("/about", "/about", "about-phone", "what it is for"),),
    ),
    Chapter(
        "Nothing there",
        "What an address leads to that there is not.",
        (View("", "/nowhere", "nowhere-phone", "one sentence, and a way back"),),
    ),
)

NOT_PAGES: dict[str, str] = {
    "/jobs": "the workbench, under a second address",
    f"{JOB}/job.toml": "a job file",
    f"{JOB}/full-size": "a file to print or to engrave",
    f"{JOB}/measured/{{measurement_id}}/report.pdf": "a report to keep with the part",
    f"{JOB}/sheet.csv": "a table",
    f"{JOB}/sheet.xlsx": "a workbook",
    f"{JOB}/sheet.pdf": "a sheet to print",
    f"{RUN}/sheet.csv": "a table of the run's own passes",
    f"{RUN}/sheet.xlsx": "a workbook of the run's own passes",
    f"{RUN}/sheet.pdf": "a sheet of the run's own passes, to print",
    f"{RUN}.json": "for programs",
    f"{RUN}/picture.svg": "a picture, shown under More",
    "/heads/{head_id}/head.toml": "a head file",
    "/heads/{head_id}/measure.csv": "a table to fill in",
}
"""Routes that answer GET with something else than a page, and with what."""

VIEWS: tuple[View, ...] = tuple(view for chapter in CHAPTERS for view in chapter.views)
