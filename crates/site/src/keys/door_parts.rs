//! Keys of locks, door-side modules and lights in a catalogue file.

use super::bounds::*;
use super::catalogue::{
    ASSUMED, FAMILY_NAME, LABOUR, MEASURED, ONE_OR_MORE, PRICE, REPLACES, SOURCE, STANDARD, TITLE,
};
use super::{Bears, Kind, TableSpec, may, must};

pub(super) static LOCK: TableSpec = TableSpec {
    name: "lock model",
    doc: "A lock.",
    keys: &[
        TITLE,
        SOURCE,
        PRICE,
        LABOUR,
        ASSUMED,
        MEASURED,
        STANDARD,
        REPLACES,
        must(
            "kind",
            Kind::Words(&["strike", "magnet", "motor", "gate"]),
            "Strike, holding magnet, motor lock, or gate drive.",
        ),
        must("power_loss", Kind::Words(&["opens", "stays-shut"]), "What it does when its power goes."),
        may("feed", Kind::Words(&["dc", "ac", "either"]), "Kind of current. Without it dc."),
        may("voltage", Kind::Quantity(&VOLTAGE), "Rated voltage; a gate drive with a dry contact has none."),
        may(
            "undervoltage_tolerance",
            Kind::Quantity(&TOLERANCE),
            "How far the voltage may lie below rated. Without it 10 %, assumed.",
        ),
        may(
            "overvoltage_tolerance",
            Kind::Quantity(&TOLERANCE),
            "How far the voltage may lie above rated. Without it 10 %, assumed.",
        ),
        may("current", Kind::Quantity(&CURRENT), "Current at rated voltage."),
        may("inrush_current", Kind::Quantity(&CURRENT), "Peak current when it starts."),
        may(
            "duty_limit",
            Kind::Quantity(&TIME),
            "Longest time it may stay energised; leave it out for continuous.",
        ),
        may("coil_inductance", Kind::Quantity(&INDUCTANCE), "Inductance of its coil, armature attracted."),
        may("dropout_current", Kind::Quantity(&CURRENT), "Current at which its armature drops out."),
    ],
};

pub(super) static ACCESSORY: TableSpec = TableSpec {
    name: "accessory",
    doc: "A module in the chain of a door station.",
    keys: &[
        TITLE,
        SOURCE,
        PRICE,
        LABOUR,
        ASSUMED,
        MEASURED,
        STANDARD,
        REPLACES,
        FAMILY_NAME,
        must(
            "kind",
            Kind::Words(&["keypad", "reader", "buttons", "names"]),
            "Keypad, card reader, call buttons, or names.",
        ),
        must("current", Kind::Quantity(&CURRENT), "Current that it draws from the door station.")
            .bears(Bears::OnFlow),
        may("night_current", Kind::Quantity(&CURRENT), "Current that its illumination adds at night.")
            .bears(Bears::OnFlow),
        may("buttons", ONE_OR_MORE, "Dwellings that its buttons can call."),
    ],
};

pub(super) static LIGHT: TableSpec = TableSpec {
    name: "light",
    doc: "A light at a door, beside those that a station or module has inside.",
    keys: &[
        TITLE,
        SOURCE,
        PRICE,
        LABOUR,
        ASSUMED,
        MEASURED,
        STANDARD,
        REPLACES,
        must(
            "kind",
            Kind::Words(&["buttons", "names", "porch"]),
            "Light for call buttons, for names, or porch light.",
        ),
        may("feed", Kind::Words(&["dc", "ac", "either"]), "Kind of current. Without it dc."),
        must("voltage", Kind::Quantity(&VOLTAGE), "Rated voltage.").bears(Bears::OnFlow),
        may(
            "voltage_tolerance",
            Kind::Quantity(&TOLERANCE),
            "How far the voltage may lie from rated, either way. Without it 10 %, assumed.",
        ),
        must("load", Kind::Load, "What it draws at rated voltage: power, current or resistance.")
            .bears(Bears::OnFlow),
    ],
};
