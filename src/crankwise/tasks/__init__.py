"""One function for one thing a person does: the only floor where the trade meets the disk.

A task takes what a person typed, as text, and gives back the trade's values or writes a file. Both
the command line and the web call these, so that both give the same answer and the same sentence.
"""
