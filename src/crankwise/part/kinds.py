"""What a part of some kind is by itself: one value for each kind that is more than bare divisions."""

from crankwise.part.bevel import BevelGear
from crankwise.part.clock_wheel import ClockWheel
from crankwise.part.flats import Flats
from crankwise.part.gear import Gear
from crankwise.part.graduated import Graduated
from crankwise.part.hole_circle import HolePattern
from crankwise.part.own_list import OwnList
from crankwise.part.rack import Rack
from crankwise.part.ratchet import Ratchet
from crankwise.part.splines import Splines
from crankwise.part.sprocket import Sprocket
from crankwise.part.worm_wheel import WormWheel

PartValue = (
    BevelGear
    | ClockWheel
    | Flats
    | Gear
    | Graduated
    | HolePattern
    | OwnList
    | Rack
    | Ratchet
    | Splines
    | Sprocket
    | WormWheel
)
