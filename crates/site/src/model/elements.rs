//! Buildings, supplies, boxes, dwellings and management stations.

use super::place::{Place, Scope};
use crate::keys::bounds::*;
use crate::keys::{Bears, Kind, keys};
use latchline_finding::quantity::{Length, Temperature, Voltage};
use latchline_finding::{ElementId, Origin, Sourced};

/// Height from floor to floor where none is stated (common practice, no source).
const USUAL_FLOOR_HEIGHT_M: f64 = 2.8;

keys! {
    /// One building. Its name is the first part of places: "A/1", "A/North/1".
    pub struct Building = BUILDING Building;
    read(record, provenance, id: ElementId, origin: Origin, floors: Vec<Sourced<String>>, cores: Vec<Sourced<String>>);

    /// The user's name, first part of places.
    field id: ElementId = id;
    /// Title for documents; without it the name.
    title: String = or(TEXT, id.to_string());
    /// Floors from the lowest to the highest.
    floors: Vec<Sourced<String>> = must(Kind::List(&Kind::Text)), by floors;
    /// Stairs or risers, if there is more than one.
    cores: Vec<Sourced<String>> = list(Kind::List(&Kind::Text)), by cores;
    /// Height from floor to floor. Without it 2.8 m, assumed.
    floor_height: Sourced<Length> = or_assumed(HEIGHT, Length::from_metres(USUAL_FLOOR_HEIGHT_M)).bears(Bears::OnNothing);
    /// Number of the building in addresses; without it the next free one.
    number: Option<Sourced<u32>> = may(NUMBER);
    /// Where it is defined.
    field origin: Origin = origin;
}

keys! {
    /// A DC power supply unit on site.
    pub struct Supply = SUPPLY Supply;
    read(record, provenance, id: ElementId, origin: Origin, model: Sourced<String>, place: Place);

    /// The user's name.
    field id: ElementId = id;
    /// Model in the catalogue.
    model: Sourced<String> = must(TEXT), by model;
    /// Where it is: "A/G".
    place: Place = may(TEXT), by place;
    /// Output voltage as set or measured on site, if not the model's.
    set_voltage: Option<Sourced<Voltage>> = may(VOLTAGE);
    /// Highest temperature of the air around it, for its heat. Without it 40 °C, told as assumed where heat is judged.
    ambient: Option<Sourced<Temperature>> = may(TEMPERATURE);
    /// Lowest temperature of the air around it, for the capacity of its battery. Without it 20 °C, or `ambient` if that is
    /// lower, told as assumed where hours are judged.
    coldest_ambient: Option<Sourced<Temperature>> = may(TEMPERATURE);
    /// Batteries of the model's kind in parallel, 1 if not stated; where the supply takes them.
    batteries: Sourced<u32> = or(Kind::Integer(1, 16), 1);
    /// Where it is defined.
    field origin: Origin = origin;
}

keys! {
    /// A distributor or branch box on site. Its ports are named after it: D1.1, D1.2, ...; the signal link of an isolating
    /// box is D1.link.
    pub struct DistributionBox = DISTRIBUTION_BOX Box;
    read(record, provenance, id: ElementId, origin: Origin, model: Sourced<String>, place: Place);

    /// The user's name.
    field id: ElementId = id;
    /// Model in the catalogue.
    model: Sourced<String> = must(TEXT), by model;
    /// Where it is: "A/G".
    place: Place = may(TEXT), by place;
    /// Where it is defined.
    field origin: Origin = origin;
}

keys! {
    /// The concierge's station.
    pub struct Management = MANAGEMENT ManagementStation;
    read(record, provenance, id: ElementId, origin: Origin, place: Place, station: usize);

    /// The user's name; its station's name too.
    field id: ElementId = id;
    /// Model in the catalogue, if not the default.
    key model = may(TEXT);
    /// Where it is: "A/G".
    place: Place = may(TEXT), by place;
    /// Number in addresses; without it the next free one.
    number: Option<Sourced<u32>> = may(NUMBER);
    /// Its station: index into [`Site::stations`](super::Site::stations).
    field station: usize = station;
    /// Whom it can call, as at entrances. Without it everyone.
    // Known when all names are.
    calls: Scope = may(NAMES), by Scope::default();
    /// Where it is defined.
    field origin: Origin = origin;
}

keys! {
    /// One dwelling, usually one line. Its stations are named after it: A-12 is the main one, A-12:2 the second, A-12:3 the third.
    pub struct Dwelling = DWELLING Dwelling;
    read(record, provenance, id: ElementId, origin: Origin, place: Place, stations: Vec<usize>);

    /// The user's name; its main station's name too.
    field id: ElementId = id;
    /// Where it is: "A/1" or "A/North/1".
    place: Place = may(TEXT), by place;
    /// Model of its main station, if not the default.
    key station = may(TEXT);
    /// Of a range of dwellings such as "A-1..A-32", how many are on a floor: the first so many on the floor of `place`, or the lowest
    /// if it names none, the next on the floor above.
    key per_floor = may(Kind::Integer(1, 1000));
    /// Models of further stations in the same dwelling.
    key extensions = may(Kind::List(&Kind::Text));
    /// Number in addresses; without it the number in the name, or the lowest free one. Of a range that of its first dwelling.
    number: Option<Sourced<u32>> = may(NUMBER);
    /// Name on the button panel, if not the dwelling's name.
    label: Option<String> = may(TEXT);
    /// Its stations, the main one first: indices into [`Site::stations`](super::Site::stations).
    field stations: Vec<usize> = stations;
    /// Where it is defined.
    field origin: Origin = origin;
}
