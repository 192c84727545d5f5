"""Every address of the app."""

from starlette.routing import Route

from crankwise.web.answers import page
from crankwise.web.pages import (
    about,
    demo,
    head,
    head_drawing,
    head_file,
    head_form,
    heads,
    job,
    new_job,
    preferences,
    run,
    run_json,
    sheet,
    sheet_file,
    workbench,
)

ROUTES: list[Route] = [
    page("/", workbench.show),
    page("/jobs", workbench.show),
    page("/jobs/new", new_job.show, new_job.keep),
    page("/jobs/{job_id}", job.show),
    page("/jobs/{job_id}/way", act=job.choose_way),
    page("/jobs/{job_id}/name", act=job.rename),
    page("/jobs/{job_id}/drop", act=job.drop),
    page("/jobs/{job_id}/runs", act=run.begin),
    page("/jobs/{job_id}/sheet", sheet.show),
    page("/jobs/{job_id}/sheet.csv", sheet_file.csv),
    page("/jobs/{job_id}/sheet.xlsx", sheet_file.xlsx),
    page("/jobs/{job_id}/sheet.pdf", sheet_file.pdf),
    page("/jobs/{job_id}/sheet.html", sheet_file.html),
    page("/runs/{run_id}.json", run_json.show),
    page("/runs/{run_id}", run.show),
    page("/runs/{run_id}/taps", act=run.tap),
    page("/heads", heads.show),
    page("/heads/new", head_form.show_new, head_form.keep_new),
    page("/heads/import", head_file.show, head_file.take_in),
    page("/heads/drawing", act=head_drawing.draw),
    page("/heads/{head_id}", head.show),
    page("/heads/{head_id}/edit", head_form.show_edit, head_form.keep_edit),
    page("/heads/{head_id}/head.toml", head_file.hand_out),
    page("/heads/{head_id}/drop", act=head.drop),
    page("/about", about.show),
    page("/preferences", act=preferences.keep),
    page("/demo/drop", act=demo.drop),
]
