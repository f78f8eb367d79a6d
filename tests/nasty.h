// SPDX-License-Identifier: MIT
// Scenes written in every way that TOML allows, for tests of what keeps their bytes.
#pragma once

#include <string>
#include <string_view>

namespace ebbline::nasty {

/// Blocks, sub-tables, keys with dots, arrays over lines, comments wherever one may stand.
inline constexpr std::string_view blocks = R"(# Küche der »Möwe« – tab behind:	
  # indented
ebbline = 1	# the format
what = 'scene'
"title" = "Kühlbox 冷蔵庫 \u00e9"	# the name
note = """
Zwei "Zeilen" \
   und 'noch' eine
# kein Kommentar
"""
rules   =   "small-craft-iso"
x-free = { "house" = "house.plus", a.b = [1, 2] }
surroundings.ambient_c = 18.50 # by dots
subject = 'fridge'

# the plan
[plan]
outline_m = [ [0, 0],   # corner
	[8.4, 0], [8.4, 2.6] ]
[plan.picture]
file = "lines.png"

# Batterie: house
# second line
[[part]] # the first
	id = "house"	# indented by tabs
	name = 'Haus "Akku"'
	kind = "battery"
	model = "wet-lead-100"
	# charge_pct = 55
	charge_pct = 80.0
	at_m = [ 0.8,
		0.6 ]
	# age_pct = 3

[[part]]
id = "spare"
kind = "battery"
temperature_c = -3e0
[[part]]
id = "main-switch"
kind = "isolator"
x-serial = 7
  # trailing comment

# floating comment, nobody's

[[part]]
kind = "fuse"
id = "main-fuse"
rating_a = 15
"holder_mohm" = 2.0
[part.x-bought]
where = "house.plus"

[[part]]
id = "neg"
kind = "stud"
stack = [
	"twin.2.from", # bottom
	# middle
	"house-neg.to",
	'sense.from' # top
]

[[part]]
id = "sleeve-a"
kind = "splice"
joint_sleeve.condition = "tired" # by dots
joint_sleeve."kind" = "sleeve"

[[part]]
id = "socket"
kind = "plug"
[part.joint_plus]
# measured
resistance_mohm = 3
[part.joint_minus.x-only]
a = 1

[[part]]
id = "board"
kind = "panel"
ways = 6
closed = [ true, true, # first two
	false,
	true, true, true, # rest
]
resistance_mohm = 2.50 # all

[[part]]
id = "hull"
kind = "chassis"
[[part]]
id = "front-bond"
kind = "bond"
to = "hull"
joint_lug = 'bond'
[[part]]
id = "rear-bond"
kind = "bond"
to = 'hull'
joint_lug = {condition="corroded",x-when = "house", resistance_mohm = 9}

[[part]]
id = "probe"
kind = "meter"
plus = "fridge.plus"
minus = "twin.2.to"

[[part]]
id = "fridge"
kind = "controller"
model = "small-12-24"
cut_out_v = 10.2

[[part]]
id = "freezer"
kind = "controller"

[[part]]
id = "lamp"
kind = "load"
law = "current"

[[part]]
id = "alternator"
kind = "charger"

[[part]]
id = "stat"
kind = "thermostat"

[[part]]
id = "leads"
kind = "bench-leads"

[[part]]
id = "breaker-a"
kind = "breaker"

[[part]]
id = "bus"
kind = "bus-bar"

[[run]]                                  # two cores
id = "twin"
from = ["main-fuse.load", "neg.post"]
to = [
  "fridge.plus" ,
  "fridge.minus"
  ]
area_mm2 = 6
conductor = [ "class-5-tinned", 'class-2' ]
length_m = 4.50
[run.joint_from]
kind = "ring" # both
condition = "tired"
[run.joint_from.x-more]
b = 2

[[run]]
id = "house-neg"
from = "house.minus"
to = "neg.post"
awg = "2/0" # thick
length_m = 0.4
joint_to = "ring"

[[run]]
id = "sense"
from = "neg.post"
to = "socket.in-minus"
sae = 12
route_m = [[0, 0], [0, 3], # bend
  [4, 3]]
spare_m = 0.5
joint_from = { kind = "ring", condition = "tired", connected = true }
joint_to = {}

[[run]]
id = "three"
from = ["bus.1", "bus.2", "bus.3"]
to = ["board.1", "board.2", "board.feed"]
awg = [12, "1/0", 10]
length_m = 1
joint_to = [ "crimp", { kind = "screw", x-a = [ 1,
  2 ] }, # last
  "ring" ]
[[run.joint_from]]
kind = "ring"
[[run.joint_from]]
[[run.joint_from]]
resistance_mohm = 3 # measured

[[run]]
id = "dots"
from = ["house.plus"]
to = ["main-switch.line"]
area_mm2 = [16]
length_m = 1
joint_from.kind = "post-clamp"
joint_to.resistance_mohm = 5
# at the end of a block

[[way]]
id = "bilge"
name = "Bilge"
line_m = [[0, 0], [4, 0]]

[[keep-out]]
id = "engine"
outline_m = [[0, 0], [1, 0], [1, 1]]

[[condition]]
id = "cold"
name = "Cold"
[condition.set]
"twin.2.to.condition" = "corroded" # twin
"house.age_pct" = 45
'joints.condition' = "tired"

[[condition]]
id = "old"
set."spare.age_pct" = 80
set."house.charge_pct" = 30

[[variant]]
id = "thicker"
set = { "twin.area_mm2" = 10, "house-neg.length_m" = 1 }
[[variant.part]]
id = "extra"
kind = "bond"
to = "hull"
[[variant.run]]
id = "extra-lead"
from = "extra.lug"
to = "house.minus"
area_mm2 = 6
length_m = 1

[[setup]]
id = "bench"
open = ["twin.1.from"]
bridge = [ ["fridge.call", "fridge.call-return"],
  ["house.plus", "fridge.plus"] ]

[[setup]]
id = "no-stat"
remove = ["stat"]
part = [ { id = "stat", kind = "isolator" } ]

[[fault]]
on = "twin.2.to"
kind = "corroded-joint"
resistance_mohm = 30

[[event]]
at_s = 0.5
set = { "main-switch.closed" = false }

[[spread]]
on = "house.charge_pct"
law = "normal"
mean = 80
deviation = 5

# the end)";

/// Parts and runs as inline tables in arrays over lines.
inline constexpr std::string_view arrays = R"(ebbline = 1
title = 'in arrays'
part = [
  # the battery
  { id = "house", kind = "battery", charge_pct = 70 },  # first

  { id = "fuse-a", kind = "fuse" }, { id = "fuse-b", kind = "fuse",rating_a=10 },
  # sockets
  {id="socket",kind="plug",joint_plus={},joint_minus.condition="tired"}, # and so on
  { id = "fridge", kind = "controller", model = "small-12-24", at_m = [ 1,
     2 ] } # no comma
]
run = [{ id = "a", from = "house.plus", to = "fuse-a.line", area_mm2 = 6, length_m = 1 }, { id = "b", from = "fuse-a.load", to = "fuse-b.line", area_mm2 = 6, length_m = 1, joint_to.kind = "ring" },
  { id = "c", from = ["house.minus", "fuse-b.load"], to = ["fridge.minus", "fridge.plus"], area_mm2 = 6, length_m = 1, joint_from = "ring" }]
event = [ { at_s = 1, set = { "socket.mated" = false } } ]
)";

/// With lines that end as on other systems.
inline std::string withReturns(std::string_view text) {
    std::string out;
    for (const char letter : text)
        out += letter == '\n' ? std::string("\r\n") : std::string(1, letter);
    return out;
}

} // namespace ebbline::nasty
