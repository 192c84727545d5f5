"""The web app: phone first, made on the server, and whole without script.

A page is one file in `pages/`: it reads the visit, calls one task, fills one template. The same answer
is at the same address as JSON (`?json`, or Accept: application/json). `routes.py` lists every address.

    app.py          puts the whole together
    guard.py        refuses foreign hosts and origins and bodies that are too large; the headers
    door.py         which door a visitor came in by: this computer, or the network
    visit.py        what a visitor asked: path, form, preferences
    answers.py      what a page gives back, and how that becomes HTML, JSON or an error
    preferences.py  units, kept in a cookie
    showing.py      exact values in the visitor's units, for the templates
    objects.py      kept things as plain objects, for JSON
    run_panel.py    what the run page shows, wherever the run stands
    typed_tap.py    one tap from the form that was sent
    head_fields.py  the form of a head: fields named after the places in a head file
    part_forms.py   the form of each kind of part, out of form_fields.py; gears and graduated work beside it

    static/run.js       the run page: taps go to the workshop, or are kept here while it is out of reach
    static/run_card.js  the same page as a pocket card, with no workshop at all
    static/run_*.js     what both are made of: engine (where the run stands), journal, keep (the phone's own
                        storage), panel, picture, ring, hands (switches, voice); text and code, by which a
                        card's journal comes home
"""

from crankwise.web.app import create_app

__all__ = ["create_app"]
