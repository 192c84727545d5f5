"""Learn from measured parts that lie in files: a job file and its readings each."""

from collections.abc import Sequence

from crankwise.errors import BadInput, FaultsFound, Mendable
from crankwise.tasks.heads import load_head
from crankwise.tasks.job_accuracy import gear_of
from crankwise.tasks.job_file import load_job
from crankwise.tasks.judge_part import inspected_part
from crankwise.tasks.learn_head import HeadLesson, SeenPart, lesson_of
from crankwise.tasks.measure_part import check_column, part_sheet, plan_of


def learn_from_files(head_path: str, parts: Sequence[Sequence[str]], column: str = "pitch_um") -> HeadLesson:
    """Return what parts say of a head.

    parts   the path of each part's job file, of its readings, and its number or mark where it was measured more
            than once
    column  what readings without a heading hold

    Raises Mendable.
    """
    check_column(column)
    head = load_head(head_path)
    return lesson_of(head, [_seen(head_path, one[0], one[1], "".join(one[2:]), column) for one in parts])


def _seen(head_path: str, job: str, readings: str, piece: str, column: str) -> SeenPart:
    loaded = load_job(job, with_head=False)
    plan = plan_of(loaded, head_path)
    name = readings.replace("\\", "/").rpartition("/")[2]
    try:
        found, rim_mm = inspected_part(plan, part_sheet(readings, column), gear_of(loaded.made))
    except BadInput as error:
        told = error.message if error.place == name else str(error)
        raise type(error)(readings, told) from None
    except FaultsFound:
        raise
    except Mendable as error:
        raise type(error)(f"{readings}: {error}") from None
    return SeenPart(name, "", plan, found, rim_mm, same=piece and f"{job}, piece {piece}")
