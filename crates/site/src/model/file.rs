//! The site file as a whole, its head, the findings that it accepts, and its revisions.

use super::conditions::{CONDITIONS, POLICY};
use super::door::ENTRANCE;
use super::elements::{BUILDING, DISTRIBUTION_BOX, DWELLING, MANAGEMENT, SUPPLY};
use super::run::RUN;
use crate::catalogue::cable::CABLE;
use crate::keys::bounds::*;
use crate::keys::{KeySpec, Kind, TableSpec, keys};
use latchline_finding::{Origin, Sourced};
use latchline_words::reading::Thing;

// By hand: a table of tables, read one by one.
/// The whole site file.
pub static SITE_FILE: TableSpec = TableSpec {
    name: Thing::SiteFile,
    doc: "Everything about one site. Only [site] must be there; the order of the tables is free and the order of the names within them is kept.",
    keys: &[
        KeySpec::must("site", Kind::Table(&SITE), "Title, family and default models."),
        KeySpec::may(
            "conditions",
            Kind::Table(&CONDITIONS),
            "Temperatures and tolerances under which the site is judged.",
        ),
        KeySpec::may("policy", Kind::Table(&POLICY), "What you want beyond \"it works\"."),
        KeySpec::may(
            "buildings",
            Kind::Named(&BUILDING),
            "The buildings, by short name. Places begin with it.",
        ),
        KeySpec::may("supplies", Kind::Named(&SUPPLY), "The supplies, by name."),
        KeySpec::may("distributors", Kind::Named(&DISTRIBUTION_BOX), "The distributors, by name."),
        KeySpec::may("branch-boxes", Kind::Named(&DISTRIBUTION_BOX), "The branch boxes, by name."),
        KeySpec::may(
            "entrances",
            Kind::Named(&ENTRANCE),
            "The entrances, by name; the door station has the entrance's name.",
        ),
        KeySpec::may("management", Kind::Named(&MANAGEMENT), "The management stations, by name."),
        KeySpec::may(
            "dwellings",
            Kind::Named(&DWELLING),
            "The dwellings, by name; the indoor station has the dwelling's name.",
        ),
        KeySpec::may("runs", Kind::Named(&RUN), "The cable runs, by name."),
        KeySpec::may(
            "cables",
            Kind::Named(&CABLE),
            "Cables of this site that are in no catalogue: the same keys as in a catalogue file.",
        ),
        KeySpec::may(
            "accept",
            Kind::List(&Kind::Table(&ACCEPT)),
            "Findings that you know of and accept: [[accept]] once for each.",
        ),
        KeySpec::may(
            "revision",
            Kind::List(&Kind::Table(&REVISION)),
            "The revisions of the plan, the oldest first: [[revision]] once for each. The last one is what every sheet of the pack says.",
        ),
    ],
};

keys! {
    /// The site as a whole.
    pub struct SiteHead = SITE Site;
    read(record, provenance);

    /// Title for documents.
    title: String = must(TEXT), by record.read("title", provenance).unwrap_or_default();
    /// Family of parts; its limits and address scheme hold.
    family: Sourced<String> = must(TEXT),
        by record.read("family", provenance).unwrap_or(Sourced::assumed(String::new()));
    /// Country as two letters ("GB"), for advice on codes.
    country: Option<Sourced<String>> = may(TEXT);
    /// Model of every dwelling's station that names no other.
    indoor_station: Option<Sourced<String>> = may(TEXT);
    /// Model of every entrance's door station that names no other.
    door_station: Option<Sourced<String>> = may(TEXT);
    /// Model of every management station that names no other.
    management_station: Option<Sourced<String>> = may(TEXT);
    /// Cable of every run that names no other.
    cable: Option<Sourced<String>> = may(TEXT);
    /// Further catalogue files, relative to this file.
    catalogues: Vec<Sourced<String>> = list(Kind::List(&Kind::Text));
}

keys! {
    /// A finding that you know of and accept.
    pub struct AcceptanceEntry = ACCEPT Acceptance;
    try read(record, provenance);

    /// Code of the finding.
    code: Sourced<String> = must(TEXT);
    /// The element that it is about; without it the code is accepted everywhere.
    element: Option<Sourced<String>> = may(TEXT);
    /// Why it is accepted.
    reason: String = must(TEXT);
    /// When it was accepted.
    date: String = must(Kind::Date);
    /// Where it is written.
    field origin: Origin = record.at(&record.span);
}

keys! {
    /// A revision of the plan.
    pub struct RevisionEntry = REVISION Revision;
    try read(record, provenance);

    /// Its number or letter: "A". The last one stands on every sheet.
    mark: Sourced<String> = must(TEXT);
    /// The day of the revision.
    date: Sourced<String> = must(Kind::Date);
    /// What changed.
    change: String = must(TEXT);
    /// Who made it. Left out of the files for one reader, unless names are asked for.
    by: Option<String> = may(TEXT);
    /// Who checked it. Left out where `by` is.
    checked_by: Option<String> = may(TEXT);
}
