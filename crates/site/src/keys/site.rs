//! Keys of the site file.

use super::bounds::*;
use super::catalogue::CABLE;
use super::entrance::ENTRANCE;
use super::{Kind, TableSpec, may, must};

pub(super) const TEXT: Kind = Kind::Text;
pub(super) const BOOLEAN: Kind = Kind::Boolean;
pub(super) const NAMES: Kind = Kind::OneOrMany(&Kind::Text);
pub(super) const COUNT: Kind = Kind::Integer(0, 10_000);
pub(super) const NUMBER: Kind = Kind::Integer(0, 999_999);
const ENVIRONMENT: Kind = Kind::Words(&["indoors", "outdoors", "buried"]);

/// The whole site file.
pub static SITE_FILE: TableSpec = TableSpec {
    name: "site file",
    doc: "Everything about one site. Only [site] must be there; the order of the tables is free and the order of the names within them is kept.",
    keys: &[
        must("site", Kind::Table(&SITE), "Title, family and default models."),
        may(
            "conditions",
            Kind::Table(&CONDITIONS),
            "Temperatures and tolerances under which the site is judged.",
        ),
        may("policy", Kind::Table(&POLICY), "What you want beyond \"it works\"."),
        may("buildings", Kind::Named(&BUILDING), "The buildings, by short name. Places begin with it."),
        may("supplies", Kind::Named(&SUPPLY), "The supplies, by name."),
        may("distributors", Kind::Named(&BOX), "The distributors, by name."),
        may("branch-boxes", Kind::Named(&BOX), "The branch boxes, by name."),
        may(
            "entrances",
            Kind::Named(&ENTRANCE),
            "The entrances, by name; the door station has the entrance's name.",
        ),
        may("management", Kind::Named(&MANAGEMENT), "The management stations, by name."),
        may(
            "dwellings",
            Kind::Named(&DWELLING),
            "The dwellings, by name; the indoor station has the dwelling's name.",
        ),
        may("runs", Kind::Named(&RUN), "The cable runs, by name."),
        may(
            "cables",
            Kind::Named(&CABLE),
            "Cables of this site that are in no catalogue: the same keys as in a catalogue file.",
        ),
        may(
            "accept",
            Kind::List(&Kind::Table(&ACCEPT)),
            "Findings that you know of and accept: [[accept]] once for each.",
        ),
    ],
};

static SITE: TableSpec = TableSpec {
    name: "site",
    doc: "The site as a whole.",
    keys: &[
        must("title", TEXT, "Title for documents."),
        must("family", TEXT, "Family of parts; its limits and address scheme hold."),
        may("country", TEXT, "Country as two letters (\"GB\"), for advice on codes."),
        may("indoor_station", TEXT, "Model of every dwelling's station that names no other."),
        may("door_station", TEXT, "Model of every entrance's door station that names no other."),
        may("management_station", TEXT, "Model of every management station that names no other."),
        may("cable", TEXT, "Cable of every run that names no other."),
        may("catalogues", Kind::List(&Kind::Text), "Further catalogue files, relative to this file."),
    ],
};

static CONDITIONS: TableSpec = TableSpec {
    name: "condition",
    doc: "Temperatures and tolerances under which the site is judged.",
    keys: &[
        may(
            "usual_temperature",
            Kind::Quantity(&TEMPERATURE),
            "Usual conductor temperature, for nominal values. Without it 20 °C.",
        ),
        may(
            "hottest_temperature",
            Kind::Quantity(&TEMPERATURE),
            "Hottest conductor temperature, for the worst case. Without it 40 °C.",
        ),
        may(
            "coldest_temperature",
            Kind::Quantity(&TEMPERATURE),
            "Coldest conductor temperature, for the least resistance. Without it 0 °C.",
        ),
        may(
            "length_tolerance",
            Kind::Quantity(&TOLERANCE),
            "How far true lengths may lie above or below the stated ones. Without it 5 %.",
        ),
        may(
            "joint_resistance",
            Kind::Quantity(&RESISTANCE_OR_NONE),
            "Resistance of one joint or terminal in one conductor. Without it 10 mohm, assumed.",
        ),
    ],
};

static POLICY: TableSpec = TableSpec {
    name: "policy",
    doc: "What you want beyond \"it works\".",
    keys: &[
        may(
            "thin_margin",
            Kind::Quantity(&SMALL_VOLTAGE),
            "A station that passes by less than this is called thin. Without it 1 V.",
        ),
        may(
            "largest_silenced_group",
            COUNT,
            "Most dwellings that one broken joint or removed station may silence.",
        ),
        may(
            "chains_through_dwellings",
            BOOLEAN,
            "Whether a chain may loop in and out of one dwelling to reach another. Without it true.",
        ),
        may("spare_ports", COUNT, "Distributor ports to keep free."),
        may(
            "standby_hours",
            Kind::Number(0.0, 1000.0),
            "Hours that the battery must carry the site in standby.",
        ),
    ],
};

static BUILDING: TableSpec = TableSpec {
    name: "building",
    doc: "One building. Its name is the first part of places: \"A/1\", \"A/North/1\".",
    keys: &[
        may("title", TEXT, "Title for documents; without it the name."),
        must("floors", Kind::List(&Kind::Text), "Floors from the lowest to the highest."),
        may("cores", Kind::List(&Kind::Text), "Stairs or risers, if there is more than one."),
        may(
            "floor_height",
            Kind::Quantity(&HEIGHT),
            "Height from floor to floor. Without it 2.8 m, assumed.",
        ),
        may("number", NUMBER, "Number of the building in addresses; without it the next free one."),
    ],
};

static SUPPLY: TableSpec = TableSpec {
    name: "supply",
    doc: "A DC power supply unit on site.",
    keys: &[
        must("model", TEXT, "Model in the catalogue."),
        may("place", TEXT, "Where it is: \"A/G\"."),
        may(
            "set_voltage",
            Kind::Quantity(&VOLTAGE),
            "Output voltage as set or measured on site, if not the model's.",
        ),
        may("ambient", Kind::Quantity(&TEMPERATURE), "Highest temperature of the air around it."),
        may(
            "batteries",
            Kind::Integer(1, 16),
            "Batteries of the model's kind in parallel, 1 if not stated; where the supply takes them.",
        ),
    ],
};

static BOX: TableSpec = TableSpec {
    name: "box",
    doc: "A distributor or branch box on site. Its ports are named after it: D1.1, D1.2, ...; the signal link of an isolating box is D1.link.",
    keys: &[must("model", TEXT, "Model in the catalogue."), may("place", TEXT, "Where it is: \"A/G\".")],
};

static MANAGEMENT: TableSpec = TableSpec {
    name: "management station",
    doc: "The concierge's station.",
    keys: &[
        may("model", TEXT, "Model in the catalogue, if not the default."),
        may("place", TEXT, "Where it is: \"A/G\"."),
        may("number", NUMBER, "Number in addresses; without it the next free one."),
        may("calls", NAMES, "Whom it can call, as at entrances. Without it everyone."),
    ],
};

static DWELLING: TableSpec = TableSpec {
    name: "dwelling",
    doc: "One dwelling, usually one line. Its stations are named after it: A-12 is the main one, A-12:2 the first extension.",
    keys: &[
        may("place", TEXT, "Where it is: \"A/1\" or \"A/North/1\"."),
        may("station", TEXT, "Model of its main station, if not the default."),
        may("extensions", Kind::List(&Kind::Text), "Models of further stations in the same dwelling."),
        may(
            "number",
            NUMBER,
            "Number in addresses; without it the number in the name, or the lowest free one.",
        ),
        may("label", TEXT, "Name on the button panel, if not the dwelling's name."),
    ],
};

static RUN: TableSpec = TableSpec {
    name: "run",
    doc: "A cable path: from here to these, in this order. Give \"length\" for one section, \"lengths\" for one each, or \"first\" and \"spacing\" (\"spacing\" alone: all sections are that long).",
    keys: &[
        must(
            "from",
            TEXT,
            "Where it starts: a supply, a port such as \"D1.3\", or a station from which it branches off.",
        ),
        must("to", NAMES, "The stations and boxes that it reaches, in order."),
        may("cable", TEXT, "Cable in the catalogue, if not the default."),
        may("length", Kind::Quantity(&SECTION_LENGTH), "Length of the only section."),
        may("lengths", Kind::List(&Kind::Quantity(&SECTION_LENGTH)), "Length of every section, in order."),
        may("first", Kind::Quantity(&SECTION_LENGTH), "Length of the first section."),
        may("spacing", Kind::Quantity(&SECTION_LENGTH), "Length of every further section."),
        may("pairs", Kind::Integer(1, 16), "Pairs in parallel. Without it 1."),
        may("joints", COUNT, "Extra joints per conductor, beyond the terminals at each stop. Without it 0."),
        may(
            "terminator",
            BOOLEAN,
            "Whether a terminator is set on its last station; leave it out if you do not know.",
        ),
        may(
            "terminator_capacitor",
            BOOLEAN,
            "Whether that terminator has its series capacitor. Without it true.",
        ),
        may("environment", ENVIRONMENT, "Where it runs. Without it indoors."),
        may(
            "beside_mains",
            BOOLEAN,
            "Whether it shares a route with mains cables without separation. Without it false.",
        ),
        may("existing", BOOLEAN, "Whether the cable is already in the walls. Without it false."),
        may(
            "surge_protection",
            Kind::Quantity(&RESISTANCE_OR_NONE),
            "Loop resistance of a surge protector in it, if one is fitted.",
        ),
        may("measured", Kind::Table(&MEASURED), "What was measured of it with the electronics disconnected."),
    ],
};

static MEASURED: TableSpec = TableSpec {
    name: "measurement",
    doc: "What was measured of a run with the electronics disconnected.",
    keys: &[
        may(
            "loop",
            Kind::Quantity(&RESISTANCE),
            "Loop resistance, both conductors, with the far end short-circuited.",
        ),
        may(
            "capacitance",
            Kind::Quantity(&CAPACITANCE),
            "Capacitance between the conductors with the far end open.",
        ),
        may(
            "insulation",
            Kind::Quantity(&INSULATION),
            "Insulation resistance between the conductors or to earth, the lower of the two.",
        ),
    ],
};

static ACCEPT: TableSpec = TableSpec {
    name: "acceptance",
    doc: "A finding that you know of and accept.",
    keys: &[
        must("code", TEXT, "Code of the finding."),
        may("element", TEXT, "The element that it is about; without it the code is accepted everywhere."),
        must("reason", TEXT, "Why it is accepted."),
        must("date", Kind::Date, "When it was accepted."),
    ],
};
