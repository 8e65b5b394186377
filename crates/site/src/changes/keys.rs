//! Every key of the site file, and what a difference in it is: work on site, something known or wished otherwise, or what the lists of
//! models, places, runs, cables and numbers tell already. A key that is in no row fails a test, so that no difference is silent.

use latchline_words::reading::Thing;

/// What a difference in a key is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Bearing {
    /// Something is bought, fitted, wired or taken off.
    Fit,
    /// Something is set.
    Set,
    /// A label or a call list is another.
    Label,
    /// Nothing changes on site; something is known, judged or wished otherwise.
    Known,
    /// Told by the lists of quantities, models, places, runs, cables at doors or numbers.
    Told,
}

use Bearing::{Fit, Known, Label, Set, Told};

/// A table of the site file with its keys.
type Rows = (Thing, &'static [(&'static str, Bearing)]);

/// What a difference in a key of a table of the site file is; `None` for a key that is in no row.
pub fn bearing_of(table: Thing, key: &str) -> Option<Bearing> {
    let (_, keys) = KEYS.iter().find(|(of, _)| *of == table)?;
    keys.iter().find(|(name, _)| *name == key).map(|(_, bearing)| *bearing)
}

/// Every key, by table. The tables of the file itself are told key by key; its own cables are held against each other as the parts of the
/// catalogue are.
pub static KEYS: &[Rows] = &[
    (
        Thing::Site,
        &[
            ("title", Known),
            ("family", Known),
            ("country", Known),
            ("indoor_station", Told),
            ("door_station", Told),
            ("management_station", Told),
            ("cable", Told),
            ("catalogues", Told),
        ],
    ),
    (
        Thing::Condition,
        &[
            ("usual_temperature", Known),
            ("hottest_temperature", Known),
            ("coldest_temperature", Known),
            ("length_tolerance", Known),
            ("end_allowance", Known),
            ("joint_resistance", Known),
        ],
    ),
    (
        Thing::Policy,
        &[
            ("thin_margin", Known),
            ("largest_silenced_group", Known),
            ("chains_through_dwellings", Known),
            ("spare_ports", Known),
            ("releases_at_once", Known),
            ("standby_hours", Known),
            ("calls_per_hour", Known),
            ("call_duration", Known),
        ],
    ),
    (
        Thing::Building,
        &[("title", Known), ("floors", Known), ("cores", Known), ("floor_height", Known), ("number", Told)],
    ),
    (
        Thing::Supply,
        &[
            ("model", Told),
            ("place", Told),
            ("set_voltage", Set),
            ("ambient", Known),
            ("coldest_ambient", Known),
            ("batteries", Fit),
        ],
    ),
    (Thing::Box, &[("model", Told), ("place", Told)]),
    (
        Thing::Entrance,
        &[
            ("role", Set),
            ("number", Told),
            ("place", Told),
            ("outdoors", Known),
            ("station", Told),
            ("calls", Label),
            ("lock", Told),
            ("locks", Told),
            ("accessories", Fit),
            ("lights", Told),
            ("alarm_inputs", Told),
            ("escape_route", Known),
            ("escape_decided_by", Known),
            ("escape_decided_on", Known),
            ("fire_interlock", Fit),
            ("fire_alarm_owner", Known),
            ("fire_alarm_terminals", Known),
            ("control_height", Fit),
            ("heater", Fit),
            ("surge_protection", Fit),
            ("surge_earth", Fit),
        ],
    ),
    (
        Thing::Lock,
        &[
            ("model", Fit),
            ("feed", Fit),
            ("supply_voltage", Fit),
            ("supply_tolerance", Fit),
            ("supply_ac", Fit),
            ("cable", Told),
            ("length", Told),
            ("pairs", Told),
            ("joints", Known),
            ("cables", Told),
            ("contact", Fit),
            ("relay_between", Fit),
            ("hold_time", Set),
            ("suppression", Fit),
            ("relay_on_secure_side", Fit),
            ("exit_button", Fit),
            ("mechanical_escape", Known),
            ("emergency_release", Fit),
            ("delayed_egress", Set),
            ("door_contact", Fit),
            ("suppression_voltage", Fit),
            ("owner", Known),
            ("owner_terminals", Known),
            ("contact_voltage", Known),
            ("contact_current", Known),
        ],
    ),
    (Thing::CableAtLock, &[("to", Told), ("cable", Told), ("length", Told), ("joints", Known)]),
    (Thing::LightAtDoor, &[("model", Fit), ("feed", Fit), ("lit", Set), ("cable", Told), ("length", Told)]),
    (
        Thing::AlarmInput,
        &[
            ("kind", Fit),
            ("contact", Fit),
            ("end_of_line_resistor", Fit),
            ("cable", Told),
            ("length", Told),
            ("joints", Known),
            ("tells", Label),
        ],
    ),
    (Thing::ManagementStation, &[("model", Told), ("place", Told), ("number", Told), ("calls", Label)]),
    (
        Thing::Dwelling,
        &[
            ("place", Told),
            ("station", Told),
            ("per_floor", Told),
            ("extensions", Told),
            ("number", Told),
            ("label", Label),
        ],
    ),
    (
        Thing::Run,
        &[
            ("from", Told),
            ("to", Told),
            ("cable", Told),
            ("length", Told),
            ("lengths", Told),
            ("first", Told),
            ("spacing", Told),
            ("pairs", Told),
            ("joints", Known),
            // That it is set or taken off is told with the run.
            ("terminator", Known),
            ("terminator_capacitor", Fit),
            ("environment", Known),
            ("beside_mains", Known),
            ("existing", Known),
            ("surge_protection", Fit),
            ("surge_protection_at", Fit),
            ("surge_earth", Fit),
            ("measured", Told),
        ],
    ),
    (Thing::Measurement, &[("loop", Known), ("capacitance", Known), ("insulation", Known)]),
    (Thing::Acceptance, &[("code", Told), ("element", Told), ("reason", Known), ("date", Known)]),
    (
        Thing::Revision,
        &[
            // It names the entry.
            ("mark", Told),
            ("date", Known),
            ("change", Known),
            ("by", Known),
            ("checked_by", Known),
        ],
    ),
];
