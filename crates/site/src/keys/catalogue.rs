//! Keys of a catalogue file.

use super::bounds::*;
use super::door_parts::{ACCESSORY, LIGHT, LOCK};
use super::{Bears, KeySpec, Kind, TableSpec, may, must};

pub(super) const TEXT: Kind = Kind::Text;
pub(super) const BOOLEAN: Kind = Kind::Boolean;
const COUNT: Kind = Kind::Integer(0, 100_000);
pub(super) const ONE_OR_MORE: Kind = Kind::Integer(1, 100_000);
const MONEY: Kind = Kind::Number(0.0, 1e6);
const LIMIT_KIND: Kind = Kind::Words(&["constant-current", "foldback", "hiccup", "trip"]);

pub(super) const TITLE: KeySpec = must("title", TEXT, "Title for documents.").bears(Bears::OnNothing);
pub(super) const SOURCE: KeySpec = must(
    "source",
    TEXT,
    "Where the figures are from: title and issue of the datasheet, or the standard's table.",
)
.bears(Bears::OnNothing);
pub(super) const PRICE: KeySpec =
    may("price", MONEY, "Price per piece (cables: per metre) in the catalogue's currency.")
        .bears(Bears::OnNothing);
pub(super) const LABOUR: KeySpec =
    may("labour_minutes", MONEY, "Minutes to mount one (cables: to pull a metre).").bears(Bears::OnNothing);
pub(super) const ASSUMED: KeySpec =
    may("assumed", Kind::KeyNames, "Keys whose values are assumed, not taken from the source.")
        .bears(Bears::OnNothing);
pub(super) const MEASURED: KeySpec =
    may("measured", Kind::KeyNames, "Keys whose values were measured.").bears(Bears::OnNothing);
pub(super) const STANDARD: KeySpec =
    may("standard", Kind::KeyNames, "Keys whose values are from a published standard.")
        .bears(Bears::OnNothing);
pub(super) const REPLACES: KeySpec = may(
    "replaces",
    BOOLEAN,
    "Whether this part takes the place of one of the same name in an earlier catalogue.",
)
.bears(Bears::OnNothing);
pub(super) const FAMILY_NAME: KeySpec = must("family", TEXT, "Family that it belongs to.");

/// A whole catalogue file.
pub static CATALOGUE_FILE: TableSpec = TableSpec {
    name: "catalogue file",
    doc: "Families, parts and cables. Values that the datasheet does not give are left out: what needs them is then not judged, never guessed.",
    keys: &[
        may("currency", TEXT, "Currency of all prices."),
        may("families", Kind::Named(&FAMILY), "Families of parts, by name."),
        may("supplies", Kind::Named(&SUPPLY_MODEL), "Supplies, by name."),
        may("boxes", Kind::Named(&BOX_MODEL), "Distributors and branch boxes, by name."),
        may("stations", Kind::Named(&STATION_MODEL), "Door, indoor and management stations, by name."),
        may("cables", Kind::Named(&CABLE), "Cables, by name."),
        may("locks", Kind::Named(&LOCK), "Locks, by name."),
        may("accessories", Kind::Named(&ACCESSORY), "Door-side accessory modules, by name."),
        may("lights", Kind::Named(&LIGHT), "Lights at doors, by name."),
    ],
};

static FAMILY: TableSpec = TableSpec {
    name: "family",
    doc: "A family of parts that work together on one kind of bus.",
    keys: &[
        TITLE,
        SOURCE,
        ASSUMED,
        MEASURED,
        STANDARD,
        REPLACES,
        must("nominal_voltage", Kind::Quantity(&VOLTAGE), "Nominal bus voltage."),
        must("simultaneous_calls", ONE_OR_MORE, "Calls that may stand at once on one site."),
        may(
            "simultaneous_views",
            COUNT,
            "Self-started views that may stand at once, within the number of calls. Without it 0.",
        ),
        may(
            "all_call",
            BOOLEAN,
            "Whether the management station can call every dwelling at once. Without it false.",
        ),
        may(
            "longest_run",
            Kind::Quantity(&SECTION_LENGTH),
            "Longest cable path from a port to the last device of its run.",
        ),
        may(
            "total_length_per_port",
            Kind::Quantity(&SECTION_LENGTH),
            "Greatest total length of cable on one port, branches included.",
        ),
        may("stations_per_port", ONE_OR_MORE, "Most stations on one port, branches included."),
        may("cascade_depth", ONE_OR_MORE, "Most distributors one behind the other."),
        may("door_stations", ONE_OR_MORE, "Most door stations on one site."),
        may("stations_per_dwelling", ONE_OR_MORE, "Most stations of one dwelling, the main one included."),
        may(
            "terminator_required",
            BOOLEAN,
            "Whether the last station of every chain needs a terminator. Without it false.",
        ),
        may("terminator_resistance", Kind::Quantity(&RESISTANCE), "Resistance of the terminator."),
        may("terminator_capacitance", Kind::Quantity(&CAPACITANCE), "Its series capacitor."),
        may(
            "signal_bands",
            Kind::List(&Kind::Table(&SIGNAL_BAND)),
            "Frequency bands of its signals on the pair, with the loss that they bear. Without it only lengths are judged.",
        ).bears(Bears::OnSignal),
        may("chains", BOOLEAN, "Whether several stations may hang on one chain. Without it true."),
        may("branches", BOOLEAN, "Whether a chain may branch at stations and branch boxes. Without it true."),
        must("addresses", Kind::Table(&ADDRESSES), "How devices are numbered and set."),
    ],
};

/// One band of a family's signals.
static SIGNAL_BAND: TableSpec = TableSpec {
    name: "signal band",
    doc: "One band of frequencies that a family uses on the pair.",
    keys: &[
        must("name", TEXT, "What it carries: \"speech\", \"picture\", \"data\"."),
        must("low", Kind::Quantity(&FREQUENCY), "Lower end of the band."),
        must("high", Kind::Quantity(&FREQUENCY), "Upper end of the band."),
        must(
            "budget",
            Kind::Quantity(&LEVEL),
            "Greatest insertion loss between door station and indoor station.",
        ),
        may(
            "ripple",
            Kind::Quantity(&LEVEL),
            "Greatest difference between the highest and the lowest level in the band. Without it none is judged.",
        ),
        may(
            "share",
            Kind::Quantity(&EFFICIENCY),
            "Part of the band in which the budget must be kept: below 100 % for signals of many carriers, which leave out those in a notch. Without it 100 %.",
        ),
        may("video_only", BOOLEAN, "Whether only video stations use it. Without it false."),
    ],
};

/// The address scheme of a family.
pub static ADDRESSES: TableSpec = TableSpec {
    name: "address scheme",
    doc: "The fields of the addresses of each class of device, in the order they are set.",
    keys: &[
        may("indoor", Kind::List(&Kind::Table(&ADDRESS_FIELD)), "Fields of an indoor station."),
        may("door", Kind::List(&Kind::Table(&ADDRESS_FIELD)), "Fields of a door station."),
        may("management", Kind::List(&Kind::Table(&ADDRESS_FIELD)), "Fields of a management station."),
        may(
            "extensions_share_address",
            BOOLEAN,
            "Whether all stations of a dwelling have one address on purpose. Without it false.",
        ),
        may(
            "latched_at_power_up",
            BOOLEAN,
            "Whether a changed setting is read only at power-up. Without it false.",
        ),
    ],
};

/// One field of an address.
pub static ADDRESS_FIELD: TableSpec = TableSpec {
    name: "address field",
    doc: "One number of an address and how it is set.",
    keys: &[
        must(
            "field",
            Kind::Words(&["building", "entrance", "dwelling", "extension", "management"]),
            "What it numbers.",
        ),
        must("first", Kind::Integer(0, 999_999), "Lowest number."),
        must("last", Kind::Integer(0, 999_999), "Highest number."),
        may(
            "reserved",
            Kind::List(&Kind::Integer(0, 999_999)),
            "Numbers within the range that the system keeps for itself.",
        ),
        may("main", Kind::Integer(0, 999_999), "The number that means the main one, if one does."),
        must(
            "set_by",
            Kind::Words(&["rotary", "dip", "jumpers", "keyed"]),
            "How it is set: rotary switches, a bank of on/off switches, jumpers, or keyed in.",
        ),
        must("label", TEXT, "The label printed beside the switch."),
        may("switches", Kind::Integer(1, 16), "How many rotary or on/off switches, or jumpers."),
        may("positions", Kind::Integer(2, 16), "Positions of each rotary switch. Without it 10."),
        may("digits", Kind::Integer(1, 6), "Digits to key in."),
        may(
            "order",
            Kind::Words(&["least-first", "most-first"]),
            "Whether switch 1 of the bank is the least or the most significant. Without it least-first.",
        ),
        may("on", Kind::Integer(0, 1), "Whether ON stands for 1 or 0. Without it 1."),
        may(
            "first_switch",
            Kind::Integer(1, 16),
            "Number printed on the first switch of the bank that belongs to this field. Without it 1.",
        ),
        may("offset", Kind::Integer(0, 999_999), "The switches show the number minus this. Without it 0."),
    ],
};

static SUPPLY_MODEL: TableSpec = TableSpec {
    name: "supply model",
    doc: "A DC power supply unit.",
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
        must("voltage", Kind::Quantity(&VOLTAGE), "Open-circuit output voltage.").bears(Bears::OnFlow),
        must("voltage_tolerance", Kind::Quantity(&TOLERANCE), "Tolerance of the output voltage, either way.").bears(Bears::OnFlow),
        may(
            "ripple",
            Kind::Quantity(&TOLERANCE),
            "Ripple of the output voltage, root mean square, as a share of it. Without it ripple-free.",
        ),
        must("source_resistance", Kind::Quantity(&RESISTANCE_OR_NONE), "Resistance behind the output.").bears(Bears::OnFlow),
        may("rated_power", Kind::Quantity(&POWER), "Rated output power.").bears(Bears::OnFlow),
        must("rated_current", Kind::Quantity(&CURRENT), "Rated continuous output current.").bears(Bears::OnFlow),
        may(
            "limit_current",
            Kind::Quantity(&CURRENT),
            "Current at which its limit acts. Without it the rated current.",
        ).bears(Bears::OnStartUp),
        must("limit_kind", LIMIT_KIND, "What happens at the limit.").bears(Bears::OnStartUp),
        may("short_circuit_current", Kind::Quantity(&CURRENT), "Foldback: the current into a short.").bears(Bears::OnStartUp),
        may("trip_delay", Kind::Quantity(&TIME), "Hiccup: time over the limit before it switches off.").bears(Bears::OnStartUp),
        may("retry_pause", Kind::Quantity(&TIME), "Hiccup: pause before it tries again.").bears(Bears::OnStartUp),
        may(
            "outputs",
            Kind::Integer(1, 64),
            "Number of output terminal pairs, all in parallel inside. Without it 1.",
        ),
        may(
            "feed_choke",
            Kind::Quantity(&INDUCTANCE_OR_NONE),
            "Inductance of the feed choke in series with the output; 0 mH where there is none, so that the supply shorts the signal.",
        ).bears(Bears::OnSignal),
        may(
            "output_capacitance",
            Kind::Quantity(&CAPACITANCE),
            "Capacitor across the output; must be there to judge the start-up of a supply with foldback.",
        ).bears(Bears::OnStartUp),
        may("efficiency", Kind::Quantity(&EFFICIENCY), "Efficiency at rated load."),
        may("mains_voltage", Kind::Quantity(&VOLTAGE), "Nominal mains voltage."),
        may("power_factor", Kind::Number(0.1, 1.0), "Mains power factor."),
        may("ambient_limit", Kind::Quantity(&TEMPERATURE), "Highest ambient temperature at rated load."),
        may(
            "derating_per_kelvin",
            Kind::Quantity(&TOLERANCE),
            "Share of its rated power that it loses for every kelvin above ambient_limit.",
        ),
        may("battery", Kind::Table(&BATTERY), "Built-in or attached battery."),
    ],
};

static BATTERY: TableSpec = TableSpec {
    name: "battery",
    doc: "The battery behind a supply.",
    keys: &[
        ASSUMED,
        MEASURED,
        STANDARD,
        must("capacity", Kind::Quantity(&CHARGE), "Nominal capacity.").bears(Bears::OnBattery),
        must(
            "rated_hours",
            Kind::Number(0.1, 1000.0),
            "Hours of discharge at which the capacity is rated: 20 for the 20-hour rate.",
        )
        .bears(Bears::OnBattery),
        may("peukert_exponent", Kind::Number(1.0, 2.0), "Peukert exponent.").bears(Bears::OnBattery),
        must("voltage", Kind::Quantity(&VOLTAGE), "Nominal voltage of the battery.").bears(Bears::OnBattery),
        must(
            "end_bus_voltage",
            Kind::Quantity(&VOLTAGE),
            "Bus voltage at the supply's output at the end of discharge.",
        )
        .bears(Bears::OnFlow),
        may("efficiency", Kind::Quantity(&EFFICIENCY), "Efficiency from battery to bus.")
            .bears(Bears::OnBattery),
        may("charge_current", Kind::Quantity(&CURRENT), "Greatest charging current."),
    ],
};

static BOX_MODEL: TableSpec = TableSpec {
    name: "box model",
    doc: "A distributor or branch box.",
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
            "role",
            Kind::Words(&["distributor", "branch-box"]),
            "Distributor (its ports feed runs) or branch box (splits one run).",
        ),
        must(
            "kind",
            Kind::Words(&["transparent", "port-limited", "regenerated", "isolating"]),
            "What it does with the power: joined; joined with a current limit per port; ports fed by a converter; ports fed from a supply of their own with only signals passing from the link.",
        ),
        must("ports", Kind::Integer(1, 64), "Number of ports."),
        may("consumption", Kind::Load, "Own consumption at its input.").bears(Bears::OnFlow),
        may(
            "rectifier_drop",
            Kind::Quantity(&SMALL_VOLTAGE),
            "Drop of its input rectifier, for a consumption given as power.",
        )
        .bears(Bears::OnFlow),
        may("least_voltage", Kind::Quantity(&VOLTAGE), "Least voltage at its input.").bears(Bears::OnFlow),
        may("highest_voltage", Kind::Quantity(&VOLTAGE), "Highest voltage at its input."),
        may(
            "port_resistance",
            Kind::Quantity(&RESISTANCE_OR_NONE),
            "Series resistance from input to each port, both conductors. Without it 0 ohm, assumed.",
        )
        .bears(Bears::OnFlow),
        may(
            "port_current_limit",
            Kind::Quantity(&CURRENT),
            "Current limit of each port; must be there for a port-limited box.",
        )
        .bears(Bears::OnFlow),
        may("port_limit_kind", LIMIT_KIND, "What a port does at its limit.").bears(Bears::OnStartUp),
        may(
            "port_trip_delay",
            Kind::Quantity(&TIME),
            "Hiccup or trip: time over the limit before a port switches off.",
        )
        .bears(Bears::OnStartUp),
        may("port_retry_pause", Kind::Quantity(&TIME), "Hiccup: pause before a port tries again.")
            .bears(Bears::OnStartUp),
        may(
            "turn_on_voltage",
            Kind::Quantity(&VOLTAGE),
            "Regenerated: voltage at its input at which its converter starts.",
        )
        .bears(Bears::OnStartUp),
        may(
            "turn_off_voltage",
            Kind::Quantity(&VOLTAGE),
            "Regenerated: voltage at its input at which its converter stops.",
        )
        .bears(Bears::OnStartUp),
        may(
            "input_capacitance",
            Kind::Quantity(&CAPACITANCE),
            "Regenerated: capacitor at its input, behind the rectifier if it has one.",
        )
        .bears(Bears::OnStartUp),
        may(
            "output_voltage",
            Kind::Quantity(&VOLTAGE),
            "Output voltage; must be there for a regenerated box.",
        )
        .bears(Bears::OnFlow),
        may(
            "output_tolerance",
            Kind::Quantity(&TOLERANCE),
            "Tolerance of the output voltage of a regenerated box.",
        )
        .bears(Bears::OnFlow),
        may(
            "output_resistance",
            Kind::Quantity(&RESISTANCE_OR_NONE),
            "Resistance behind the ports of a regenerated box.",
        )
        .bears(Bears::OnFlow),
        may("output_power", Kind::Quantity(&POWER), "Rated output power of a regenerated box.")
            .bears(Bears::OnFlow),
        may("efficiency", Kind::Quantity(&EFFICIENCY), "Efficiency; must be there for a regenerated box.")
            .bears(Bears::OnFlow),
        may("shares_zero_volt", BOOLEAN, "Whether an isolating box joins the 0 V of link and ports."),
        may("signal_loss", Kind::Quantity(&LEVEL), "Signal loss from input or link to each port.")
            .bears(Bears::OnSignal),
        may(
            "feed_choke",
            Kind::Quantity(&INDUCTANCE_OR_NONE),
            "Feed choke at each port, where the box feeds power there; 0 mH where there is none.",
        )
        .bears(Bears::OnSignal),
    ],
};

static STATION_MODEL: TableSpec = TableSpec {
    name: "station model",
    doc: "A door, indoor or management station. Loads are given at its terminals as power (\"4.5 W\"), current (\"85 mA\") or resistance (\"470 ohm\").",
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
        must("kind", Kind::Words(&["door", "indoor", "management"]), "Door, indoor or management station."),
        must("media", Kind::Words(&["audio", "video"]), "Speech only, or speech and picture."),
        must(
            "loop_through",
            Kind::Words(&["bridged", "series", "end"]),
            "How it sits on a chain: bridged (taking it out leaves the chain whole), in series (taking it out opens all beyond), or only at the end.",
        ),
        must("standby", Kind::Load, "Load in standby by day.").bears(Bears::OnFlow),
        must("ringing", Kind::Load, "Load while it rings, or calls.").bears(Bears::OnFlow),
        must("talking", Kind::Load, "Load while speech, and picture if any, are on.").bears(Bears::OnFlow),
        may(
            "releasing_extra",
            Kind::Load,
            "Additional load while it energises a lock: to release one that stays shut without power, or to hold one that opens without.",
        ).bears(Bears::OnFlow),
        may("night_extra", Kind::Load, "Additional load of its illumination at night.").bears(Bears::OnFlow),
        may("heater_extra", Kind::Load, "Additional load of its heater.").bears(Bears::OnFlow),
        may("boot", Kind::Load, "Load while it starts up.").bears(Bears::OnFlow),
        may("boot_time", Kind::Quantity(&TIME), "How long it takes to start up.").bears(Bears::OnStartUp),
        may(
            "load_tolerance",
            Kind::Quantity(&TOLERANCE),
            "Tolerance of its loads, either way. Without it 10 %, assumed.",
        ).bears(Bears::OnFlow),
        may(
            "rectifier_drop",
            Kind::Quantity(&SMALL_VOLTAGE),
            "Drop of its input rectifier; power is then drawn behind it.",
        ).bears(Bears::OnFlow),
        must(
            "least_voltage",
            Kind::Quantity(&VOLTAGE),
            "Least voltage at its terminals while ringing or talking.",
        ).bears(Bears::OnFlow),
        must(
            "least_standby_voltage",
            Kind::Quantity(&VOLTAGE),
            "Least voltage at its terminals in standby and start-up.",
        ).bears(Bears::OnFlow),
        may("highest_voltage", Kind::Quantity(&VOLTAGE), "Highest voltage at its terminals.").bears(Bears::OnFlow),
        may("turn_on_voltage", Kind::Quantity(&VOLTAGE), "Voltage at which its converter starts.").bears(Bears::OnStartUp),
        may("turn_off_voltage", Kind::Quantity(&VOLTAGE), "Voltage at which its converter stops.").bears(Bears::OnStartUp),
        may(
            "turn_on_delay",
            Kind::Quantity(&TIME),
            "Delay between reaching the turn-on voltage and starting.",
        ).bears(Bears::OnStartUp),
        may("input_capacitance", Kind::Quantity(&CAPACITANCE), "Input capacitor behind the rectifier.").bears(Bears::OnStartUp),
        may("inrush_limit", Kind::Quantity(&CURRENT), "Limit of its inrush current.").bears(Bears::OnStartUp),
        may(
            "bridging_resistance",
            Kind::Quantity(&RESISTANCE),
            "Resistance that it puts across the pair for signals when not in use.",
        ).bears(Bears::OnSignal),
        may(
            "bridging_capacitance",
            Kind::Quantity(&CAPACITANCE),
            "Capacitance that it puts across the pair for signals.",
        ).bears(Bears::OnSignal),
        may(
            "signal_impedance",
            Kind::Quantity(&RESISTANCE),
            "Impedance as a signal source or receiver when in use.",
        ).bears(Bears::OnSignal),
        may(
            "built_in_terminator",
            BOOLEAN,
            "Whether it has a terminator that a switch brings in. Without it false.",
        ),
        may(
            "most_per_supply",
            ONE_OR_MORE,
            "How many of this model alone one supply of the family carries, by the datasheet.",
        ),
        may("lock_output_voltage", Kind::Quantity(&VOLTAGE), "Door: voltage of its lock output."),
        may(
            "lock_output_tolerance",
            Kind::Quantity(&TOLERANCE),
            "Door: tolerance of that voltage at rated current. Without it 5 %, assumed.",
        ),
        may(
            "lock_output_ac",
            BOOLEAN,
            "Door: whether its lock output gives alternating current. Without it false.",
        ),
        may("lock_output_current", Kind::Quantity(&CURRENT), "Door: current of its lock output."),
        may("relay_current", Kind::Quantity(&CURRENT), "Door: contact rating of its lock relay."),
        may(
            "lock_outputs",
            Kind::Integer(0, 16),
            "Door: number of lock relays or outputs. Without it 1 for a door station, else 0.",
        ),
        may("release_time", Kind::Quantity(&TIME), "Door: release time that its own setting gives."),
        may(
            "accessory_current",
            Kind::Quantity(&CURRENT),
            "Door: current that its accessory connector gives.",
        ),
        may("accessory_modules", COUNT, "Door: most accessory modules in its chain."),
        may(
            "light_output_voltage",
            Kind::Quantity(&VOLTAGE),
            "Door: voltage of its output for lights, direct current.",
        ),
        may("light_output_current", Kind::Quantity(&CURRENT), "Door: current of its output for lights."),
        may("alarm_inputs", Kind::Integer(0, 16), "Door: number of its alarm inputs. Without it none."),
        may(
            "alarm_loop_resistance",
            Kind::Quantity(&RESISTANCE),
            "Door: greatest resistance of a closed loop at an alarm input.",
        ),
        may(
            "alarm_input_current",
            Kind::Quantity(&CURRENT),
            "Door: current that each closed loop at an alarm input takes from the bus.",
        ).bears(Bears::OnFlow),
        may("directory", ONE_OR_MORE, "Door: most dwellings it can call, by buttons or directory."),
    ],
};

/// A cable, in a catalogue or in the site file.
pub static CABLE: TableSpec = TableSpec {
    name: "cable",
    doc: "A cable. The resistance follows from the conductor size, or is stated.",
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
            "gauge",
            Kind::Gauge,
            "Size of one conductor: cross-section (\"1.5 mm²\", with its class), diameter (\"0.8 mm\"), \"24 AWG\", or resistance of one conductor (\"84.2 ohm/km\").",
        ).bears(Bears::OnFlow),
        may(
            "class",
            Kind::Integer(1, 5),
            "Conductor class of IEC 60228 for a cross-section: 1 solid, 2 stranded, 5 flexible.",
        ).bears(Bears::OnFlow),
        may(
            "material",
            Kind::Words(&["copper", "clad-aluminium-10", "clad-aluminium-15", "aluminium"]),
            "Conductor material; the number is the share of copper by volume. Without it copper.",
        ).bears(Bears::OnFlow),
        may("coated", BOOLEAN, "Whether the strands are tinned. Without it false.").bears(Bears::OnFlow),
        may(
            "resistance_tolerance",
            Kind::Quantity(&TOLERANCE),
            "How far the resistance may lie above or below the figure. Without it 0 % for a cross-section, whose tables give the maximum, else 5 %, assumed.",
        ).bears(Bears::OnFlow),
        may("pairs", Kind::Integer(1, 200), "Pairs in the cable. Without it 1."),
        may(
            "environments",
            Kind::List(&Kind::Words(&["indoors", "outdoors", "buried"])),
            "Where it may run. Without it indoors.",
        ),
        may("screened", BOOLEAN, "Whether it has a screen. Without it false."),
        may("mains_insulated", BOOLEAN, "Whether it is insulated for mains voltage. Without it false."),
        may("conductor_temperature_limit", Kind::Quantity(&TEMPERATURE), "Highest conductor temperature."),
        may("line", Kind::Table(&LINE), "Line constants of one pair, for signals.").bears(Bears::OnSignal).as_one_value(),
        may("drum_lengths", Kind::List(&Kind::Quantity(&SECTION_LENGTH)), "Lengths in which it is sold.").bears(Bears::OnNothing),
    ],
};

static LINE: TableSpec = TableSpec {
    name: "line constant",
    doc: "Line constants of one pair.",
    keys: &[
        ASSUMED,
        MEASURED,
        STANDARD,
        must("capacitance", Kind::Quantity(&CAPACITANCE_PER_LENGTH), "Capacitance between the conductors."),
        may(
            "inductance",
            Kind::Quantity(&INDUCTANCE_PER_LENGTH),
            "Inductance of the loop. Must be there without losses.",
        ),
        may(
            "skin_corner",
            Kind::Quantity(&FREQUENCY),
            "Frequency above which the resistance grows with the square root of the frequency. Must be there without losses.",
        ),
        may(
            "loss_tangent",
            Kind::Number(0.0, 0.5),
            "Loss tangent of the insulation. Must be there without losses.",
        ),
        may(
            "losses",
            Kind::List(&Kind::Table(&CABLE_LOSS)),
            "Instead of skin corner and loss tangent: the data sheet's losses of 100 m, three or more, to which they are fitted.",
        ),
    ],
};

static CABLE_LOSS: TableSpec = TableSpec {
    name: "cable loss",
    doc: "Loss of a matched length of 100 m at one frequency.",
    keys: &[
        must("frequency", Kind::Quantity(&FREQUENCY), "The frequency."),
        must("loss", Kind::Quantity(&LEVEL), "Loss of 100 m."),
    ],
};
