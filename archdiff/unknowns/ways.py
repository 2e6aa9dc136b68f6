"""How a look is done on the bench: by the dimension of what is asked, else by the property, section or phrase.

Common practice, no source.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

LOOK_CLOSELY = "look at it closely and write down what is found"
DOCUMENT = "read it from the part's document, or ask the maker"
MONEY = "look it up in a price list, or ask for quotes"
# Whatever kind of quantity the record's schema says a property is.
BY_DIMENSION: Mapping[str, str] = {
    "length": "measure with a caliper",
    "size": "measure with a caliper, or off a picture with a scale",
    "area": "measure its sides with a caliper, or off a picture with a scale",
    "volume": "measure its sides with a caliper",
    "mass": "weigh it on a scale",
    "time": "time it with a stopwatch",
    "voltage": "measure with a multimeter while it runs",
    "current": "measure with a meter in its supply while it runs",
    "power": "measure with a meter in its supply while it runs, or read it from its document",
    "energy": "read it off the label, or discharge it through a meter",
    "charge": "read it off the label, or discharge it through a meter",
    "frequency": "read it from the marking or its document, or measure with a counter or an oscilloscope",
    "temperature": "measure with a thermocouple",
    "resistance": "read its code, or measure with an ohmmeter, one end free",
    "capacitance": "read its code, or measure with a bridge, one end free",
    "inductance": "read its code, or measure with a bridge, one end free",
    "conductivity": "read it from the material's document, or ask the maker",
    "thermal resistance": "measure with a thermocouple on either face at a known power",
    "force": "measure with a force gauge",
    "torque": "measure with a torque driver",
    "angle": "measure with a protractor",
    "information": DOCUMENT,
    "flow": "measure the air speed at the opening with an anemometer",
    "luminous flux": DOCUMENT,
    "level": "measure with a sound level meter at a stated distance",
    "money": MONEY,
    "ratio": "measure what goes in and what comes out, or read it from its document",
    "number": "count",
}
# Properties that are no quantity, or for which the instrument of their dimension is the wrong one.
BY_PROPERTY: Mapping[str, str] = {
    "marking": "read it under magnification, with light from the side",
    "maker": "read its marking under magnification; leave it open where it names nobody",
    "package": "count its pins and hold its size and pitch against package drawings",
    "means": "look at it under magnification and read its marking",
    "function": "follow what it is joined to, and watch it while the product runs",
    "which board or piece carries it": "look where it is fastened",
    "on": "look where it is fastened",
    "in": "look where it is fastened",
    "between": "look what it is fastened to",
    "side": "look on which side of its board it sits",
    "facing": "look which way it points when the product is shut",
    "at": "measure from the corner of its board, or off a picture with a scale",
    "layers": "count them at the board's edge under magnification",
    "copper": "ask the maker, or cut a sample and look at the section (the sample is lost)",
    "conductor_thickness": "ask the maker, or cut a sample and look at the section (the sample is lost)",
    "conductor_width": "measure with a microscope with a scale",
    "largest_opening": "measure with a caliper or pin gauges",
    "material": "read the mark moulded into it, or ask the maker",
    "band": "read it from the approval label or the radio's document",
    "flow": "measure the air speed at the opening with an anemometer",
    "limit": DOCUMENT,
    "bleed": "measure across it with an ohmmeter, unpowered and discharged",
    "configuration": "measure with an ohmmeter, unpowered",
    "openings": "measure each with a caliper and count them",
    "port": "measure its hole with pin gauges, its length with a caliper",
    "separated_by": "look what stands between the lamps",
    "colours": "switch it on and look",
    "detachable": "try whether it parts and joins again",
    "reusable": "try whether it can be undone and used again",
    "drive": "hold a bit to it",
    "supplied_with": "read the plate of the supply in the box",
    "supply_ways": "count them with a continuity tester",
    "ground_ways": "count them with a continuity tester",
    "ways": "count them",
    "repair": "read the maker's help pages, or ask the maker",
    "tool": "look which tool fits",
    "rails": "measure each supply voltage and follow it with a continuity tester",
    "storage": "look for cells and large capacitors",
    "entry": "look where the supply comes in",
}
# Properties that name another element of the record, as the schema says.
LINK = "follow it with a continuity tester, or along the tracks"
# A whole section that was looked at only in part.
BY_SECTION: Mapping[str, str] = {
    "boards": "open the product to its last board and list every one",
    "parts": "go over every board side and every piece, and list what is there",
    "interconnects": "list every cable, flex and connector, with what it joins",
    "controls": "list whatever the user can press, turn, slide or touch",
    "indicators": "switch it on, go through its states, and list whatever lights or shows",
    "sensors": "list whatever senses, on boards and behind openings",
    "actuators": "list whatever moves, sounds or heats",
    "antennas": "follow each radio's output to its antenna; look along edges, under cans and behind labels",
    "shields": "list every can, foil and plate, with what it covers",
    "enclosure": "take up every piece of the housing and list what it carries, guides, seals or hides",
    "joints": "undo the product piece by piece and list every screw, clip, glue and tape",
    "paths": "follow heat, sound, light and air from source to outside and list every stage",
    "opening": "open it once more and write down every action",
    "power": "follow the supply from its entry to every rail and measure each",
    "links": "follow the tracks with a continuity tester and list what is joined to and fed by what",
}
# Facts that are no property of the record: how the phrase begins, and the look. The first that fits is taken.
BY_PHRASE: tuple[tuple[str, str], ...] = (
    ("repair", BY_PROPERTY["repair"]),
    ("price", MONEY),
    ("masses", BY_DIMENSION["mass"]),
    ("how many parts", "count the parts there, those under cans as well"),
    ("size of every part", "measure with a caliper, or off a picture with a scale"),
    ("position of each", BY_PROPERTY["at"]),
    ("place", BY_PROPERTY["at"]),
    ("the step in which", "open the product as far as that and write down the step"),
    ("whether it can be undone", BY_PROPERTY["reusable"]),
    ("which joint", "watch what the action undoes"),
    ("permittivity", BY_DIMENSION["conductivity"]),
    ("conductivity", BY_DIMENSION["conductivity"]),
    ("whether there is one", "look for it, and write down that it is there or that it is not"),
    ("parts that are placed", "list them one by one"),
    ("what else they hold inside", "read the documents of the chips, by their markings"),
    ("what things are joined to", BY_SECTION["links"]),
    ("how far they were traced", BY_SECTION["links"]),
    ("heat path", BY_SECTION["paths"]),
    ("an air path", BY_SECTION["paths"]),
    ("a light path", BY_SECTION["paths"]),
    ("a sound path", BY_SECTION["paths"]),
    ("a stage", BY_SECTION["paths"]),
    ("area of an opening", BY_PROPERTY["openings"]),
    ("whole outer area", BY_DIMENSION["area"]),
    ("which element is", "look which one it is"),
    ("which one is the host", BY_PROPERTY["function"]),
)
# What is settled by reading or asking, not at the thing: what covers the thing is no hindrance.
NOT_AT_THE_THING = (DOCUMENT, MONEY, BY_DIMENSION["conductivity"], BY_PROPERTY["repair"], BY_PROPERTY["supplied_with"])
