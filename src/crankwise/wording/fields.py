"""A sentence that was written for the command line, as a page or a file says it."""

import re


def options_as_fields(sentence: str) -> str:
    """Return a sentence with every option called as the field of a page, or the key of a file, is: without dashes.

    >>> options_as_fields("read-pins: over which pins? say it too, as --pin 1.75mm")
    'read-pins: over which pins? say it too, as pin 1.75mm'

    A command that is to be typed stays as it is typed:

    >>> options_as_fields("start the workshop with  crankwise serve --lan")
    'start the workshop with  crankwise serve --lan'
    """
    return re.sub(r"(crankwise [a-z][^;,:]*)|(?<![\w-])--(?=[a-z])", lambda found: found[1] or "", sentence)
