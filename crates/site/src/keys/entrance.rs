//! Keys of an entrance of the site file, with what is fitted there.

use super::bounds::*;
use super::site::{BOOLEAN, COUNT, NAMES, NUMBER, TEXT};
use super::{Kind, TableSpec, may, must};

pub(super) static ENTRANCE: TableSpec = TableSpec {
    name: "entrance",
    doc: "A way in with its door station.",
    keys: &[
        may(
            "role",
            Kind::Words(&["main", "secondary"]),
            "Main or secondary entrance. Without it secondary, or main where it is the only entrance.",
        ),
        may("number", NUMBER, "Number of the entrance in addresses; without it the next free one."),
        may("place", TEXT, "Where it is: \"A/G\", or \"outdoors\"."),
        may("outdoors", BOOLEAN, "Whether the door station is outdoors or in the wet."),
        may("station", TEXT, "Model of the door station, if not the default."),
        may(
            "calls",
            NAMES,
            "Whom it can call: \"everyone\", \"management\", a building, building/floor, building/core, a dwelling or a management station. Without it everyone.",
        ),
        may("lock", Kind::Table(&LOCK_USE), "The lock that it opens."),
        may("locks", Kind::List(&Kind::Table(&LOCK_USE)), "The locks that it opens, if several."),
        may("accessories", Kind::List(&Kind::Text), "Accessory modules in the order of their chain."),
        may(
            "lights",
            Kind::List(&Kind::Table(&LIGHT_USE)),
            "Lights at the door, beside those inside its station and modules.",
        ),
        may(
            "alarm_inputs",
            Kind::List(&Kind::Table(&ALARM_INPUT)),
            "What is wired to the door station's alarm inputs, in their order.",
        ),
        may("escape_route", BOOLEAN, "Whether people escape through it. Without it false."),
        may("fire_interlock", BOOLEAN, "Whether a fire interlock acts on it. Without it false."),
        may(
            "control_height",
            Kind::Quantity(&HEIGHT),
            "Height of the door station's controls above the ground.",
        ),
        may(
            "heater",
            BOOLEAN,
            "Whether the door station's heater is fitted and on at night. Without it false.",
        ),
        may(
            "surge_protection",
            Kind::Quantity(&RESISTANCE_OR_NONE),
            "Loop resistance of the surge protector in its line, if one is fitted.",
        ),
    ],
};

static LOCK_USE: TableSpec = TableSpec {
    name: "lock",
    doc: "A lock as it is fitted to an entrance.",
    keys: &[
        must("model", TEXT, "Lock in the catalogue."),
        may(
            "feed",
            Kind::Words(&["station", "bus", "own-supply", "dry-contact"]),
            "From where it takes its power. Without it \"station\"; \"dry-contact\" for a gate drive.",
        ),
        may("supply_voltage", Kind::Quantity(&VOLTAGE), "Voltage of its own supply."),
        may("supply_tolerance", Kind::Quantity(&TOLERANCE), "Tolerance of that voltage."),
        may("supply_ac", BOOLEAN, "Whether that supply gives alternating current. Without it false."),
        may("cable", TEXT, "Cable from relay or output to the lock."),
        may("length", Kind::Quantity(&SECTION_LENGTH), "Length of that cable."),
        may("joints", COUNT, "Joints per conductor on the way. Without it 2."),
        may(
            "contact",
            Kind::Words(&["normally-open", "normally-closed"]),
            "How the relay is wired. Without it normally open, or normally closed for a lock that opens without power.",
        ),
        may(
            "relay_between",
            Kind::Quantity(&CURRENT),
            "Contact rating of a relay of its own, put between the door station's relay and the lock.",
        ),
        may("hold_time", Kind::Quantity(&TIME), "How long it is held released. Without it 5 s."),
        may(
            "suppression",
            Kind::Words(&["none", "diode", "clamp", "varistor"]),
            "What kills the voltage spike of its coil.",
        ),
        may("relay_on_secure_side", BOOLEAN, "Whether the relay sits on the secure side of the door."),
        may("exit_button", BOOLEAN, "Whether an exit button is fitted. Without it false."),
        may(
            "mechanical_escape",
            BOOLEAN,
            "Whether a handle or bar opens the door from inside without power.",
        ),
        may(
            "emergency_release",
            BOOLEAN,
            "Whether an emergency release at the door breaks the lock's own circuit by hand, with no electronics between.",
        ),
        may(
            "delayed_egress",
            Kind::Quantity(&TIME),
            "Time from a push until the door opens, where a code allows delayed egress.",
        ),
        may("door_contact", BOOLEAN, "Whether a contact reports that the door is shut. Without it false."),
        may(
            "suppression_voltage",
            Kind::Quantity(&VOLTAGE),
            "Voltage of the clamp, or of the varistor at 1 mA.",
        ),
    ],
};

static LIGHT_USE: TableSpec = TableSpec {
    name: "light at a door",
    doc: "A light at a door.",
    keys: &[
        must("model", TEXT, "Light in the catalogue."),
        may(
            "feed",
            Kind::Words(&["station", "bus", "own-supply"]),
            "From where it takes its power. Without it \"station\": the door station's light output.",
        ),
        may(
            "lit",
            Kind::Words(&["night", "always", "in-use"]),
            "When it is on: at night, by day too, or while the door station calls or talks. Without it \"night\".",
        ),
    ],
};

static ALARM_INPUT: TableSpec = TableSpec {
    name: "alarm input",
    doc: "What is wired to an alarm input of a door station.",
    keys: &[
        must(
            "kind",
            Kind::Words(&["tamper", "duress", "door", "fire"]),
            "Housing opened, silent call for help, door open without a release or too long, or fire alarm: the last releases the door's locks.",
        ),
        may(
            "contact",
            Kind::Words(&["normally-closed", "normally-open"]),
            "How its contact stands while all is well. Without it \"normally-closed\".",
        ),
        may(
            "end_of_line_resistor",
            BOOLEAN,
            "Whether a resistor at the contact lets the station tell a cut or shorted cable from the contact. Without it false.",
        ),
        may("cable", TEXT, "Cable from the door station to the contact."),
        may("length", Kind::Quantity(&SECTION_LENGTH), "Length of that cable."),
        may("joints", COUNT, "Joints per conductor on the way. Without it 2."),
        may("tells", NAMES, "Who is told: the words of \"calls\". Without it nobody."),
    ],
};
