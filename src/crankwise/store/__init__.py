"""Kept things: heads, jobs, and runs with their journals, in one SQLite file.

What lives here: where the file is, how it is opened and brought up to date, and the rows. What does
not: what a person may do with them, which is a task. A run's journal is only ever added to, and a
run's state is the fold of its journal; no column says where a run stands.

The file is in write-ahead mode with full synchronisation: once a transaction has ended it outlives
a power cut, and readers never wait for a writer. Every trouble of the file reaches a person as one
`StoreTrouble` sentence.
"""
