"""The gear you own: worm, dial, hole plates, ring, notched wheels, change gears.

A `Head` may have any of them. Each part lives in a file of its own, with the rules that make it a
good part: a value that exists is a good value. What a head can divide lives in `ways`; how a head
is written down lives in `files`.

Terms: *ratio* is crank turns for one turn of the spindle; *marks* are the lines of the dial on the
crank; *graduations* are the lines of the ring on the spindle.
"""
