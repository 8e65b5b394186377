//! The sheets of a survey and their columns: one list for the reader, the template and the docs.
//!
//! Names of sheets, headings and choices are the keys of the file, the same in every language; what goes there is said in rows.

use latchline_words::survey::SurveyHelp;
use latchline_words::survey::SurveyHelp as H;

/// A column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// Its heading in the template.
    pub heading: &'static str,
    /// Further headings that mean the same, in lower-case letters and digits only.
    pub also: &'static [&'static str],
    /// Whether every row must have it.
    pub required: bool,
    /// Words to choose from; empty: free.
    pub choices: &'static [&'static str],
    /// What goes there.
    pub help: SurveyHelp,
}

/// A sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetForm {
    /// Its name.
    pub name: &'static str,
    /// Further names, in lower-case letters and digits only.
    pub also: &'static [&'static str],
    /// Whether a survey must have it.
    pub required: bool,
    /// What it is for.
    pub help: SurveyHelp,
    /// Its columns.
    pub columns: &'static [Column],
}

const fn must(heading: &'static str, also: &'static [&'static str], help: SurveyHelp) -> Column {
    Column { heading, also, required: true, choices: &[], help }
}

const fn may(heading: &'static str, also: &'static [&'static str], help: SurveyHelp) -> Column {
    Column { heading, also, required: false, choices: &[], help }
}

const fn choice(
    heading: &'static str,
    also: &'static [&'static str],
    choices: &'static [&'static str],
    help: SurveyHelp,
) -> Column {
    Column { heading, also, required: false, choices, help }
}

const YES_NO: &[&str] = &["yes", "no"];

/// What may be locked.
pub const DECISIONS: &[&str] = &["supply", "box", "route", "cable", "together", "not through"];

/// Settings of the sheet "Site": name, choices, help.
pub const SETTINGS: &[(&str, &[&str], SurveyHelp)] = &[
    ("Title", &[], H::SiteTitle),
    ("Country", &[], H::Country),
    ("Family", &[], H::Family),
    ("Catalogues", &[], H::Catalogues),
    ("Media", &["video", "audio"], H::Media),
    ("Indoor station", &[], H::IndoorStation),
    ("Door station", &[], H::DoorStation),
    ("Labour per hour", &[], H::Labour),
    ("Slack", &[], H::Slack),
    ("Termination", &[], H::Termination),
    ("Hottest temperature", &[], H::Hottest),
    ("Coldest temperature", &[], H::Coldest),
    ("Usual temperature", &[], H::Usual),
    ("Length tolerance", &[], H::LengthTolerance),
    ("Wiring", &["chains", "corridors", "stars"], H::Wiring),
    ("Largest silenced group", &[], H::LargestGroup),
    ("Spare ports", &[], H::SparePorts),
    ("Growth", &[], H::Growth),
    ("Standby hours", &[], H::StandbyHours),
    ("Thin margin", &[], H::ThinMargin),
    ("Least margin", &[], H::LeastMargin),
    ("No warnings", YES_NO, H::NoWarnings),
    ("One cable type", YES_NO, H::OneCableType),
    ("Boxes in dwellings", YES_NO, H::BoxesInDwellings),
    ("Surge protection", &[], H::SurgeOfRuns),
    ("Cables", &[], H::Cables),
    ("Withdrawn parts", &[], H::Withdrawn),
];

/// All sheets.
pub const SHEETS: &[SheetForm] = &[
    SheetForm {
        name: "Site",
        also: &["settings", "project", "policy"],
        required: false,
        help: H::SheetSite,
        columns: &[
            must("Setting", &["name", "key"], H::SettingName),
            may("Value", &["what"], H::SettingValue),
        ],
    },
    SheetForm {
        name: "Buildings",
        also: &["building", "blocks"],
        required: false,
        help: H::SheetBuildings,
        columns: &[
            must("Building", &["name", "block"], H::BuildingName),
            may("Title", &["fullname"], H::BuildingTitle),
            must("Floors", &["levels", "storeys"], H::BuildingFloors),
            may("Cores", &["stairs", "risers"], H::BuildingCores),
            may("Floor height", &["storeyheight", "heightm"], H::FloorHeight),
        ],
    },
    SheetForm {
        name: "Places",
        also: &["place", "nodes", "cupboards"],
        required: true,
        help: H::SheetPlaces,
        columns: &[
            must("Place", &["name", "node"], H::PlaceName),
            may("Building", &["block"], H::PlaceBuilding),
            may("Core", &["stair", "riser"], H::PlaceCore),
            may("Floor", &["level", "storey"], H::PlaceFloor),
            choice("Mains", &["supply", "power"], YES_NO, H::PlaceMains),
            choice("Boxes", &["box", "distributor", "distributors"], YES_NO, H::PlaceBoxes),
            choice("Outdoors", &["outside"], YES_NO, H::PlaceOutdoors),
            choice("In a dwelling", &["indwelling", "insideadwelling"], YES_NO, H::PlaceInDwelling),
        ],
    },
    SheetForm {
        name: "Routes",
        also: &["route", "ways", "containment"],
        required: false,
        help: H::SheetRoutes,
        columns: &[
            must("From", &["start", "placea"], H::RouteFrom),
            must("To", &["end", "placeb"], H::RouteTo),
            must("Length", &["metres", "distance", "lengthm"], H::RouteLength),
            choice("Environment", &["where"], &["indoors", "outdoors", "buried"], H::RouteEnvironment),
            choice("Beside mains", &["mains", "withmains"], YES_NO, H::RouteMains),
        ],
    },
    SheetForm {
        name: "Existing cables",
        also: &["existing", "oldcables"],
        required: false,
        help: H::SheetExisting,
        columns: &[
            must("From", &["start"], H::ExistingFrom),
            must("To", &["end"], H::ExistingTo),
            must("Cable", &["type"], H::ExistingCable),
            may("Length", &["metres", "lengthm"], H::ExistingLength),
            may("Loop", &["loopohm", "loopresistance"], H::ExistingLoop),
            may("Capacitance", &["capacitancenf"], H::ExistingCapacitance),
            may("Insulation", &["insulationmohm"], H::ExistingInsulation),
        ],
    },
    SheetForm {
        name: "Dwellings",
        also: &["dwelling", "flats", "apartments", "units"],
        required: true,
        help: H::SheetDwellings,
        columns: &[
            must("Dwelling", &["name", "flat", "apartment", "unit"], H::DwellingName),
            must("Place", &["at", "node"], H::BranchesOffAt),
            may("Drop", &["dropm", "stub", "length", "dropmetres"], H::DwellingDrop),
            may("Station", &["model"], H::OwnModel),
            may("Extensions", &["extension"], H::Extensions),
            may("Extension spacing", &["spacing"], H::ExtensionSpacing),
            may("Label", &["panel", "nameplate"], H::PanelLabel),
        ],
    },
    SheetForm {
        name: "Entrances",
        also: &["entrance", "doors"],
        required: true,
        help: H::SheetEntrances,
        columns: &[
            must("Entrance", &["name", "door"], H::OwnName),
            must("Place", &["at", "node"], H::BranchesOffAt),
            may("Drop", &["dropm", "length"], H::EntranceDrop),
            choice("Role", &["kind"], &["main", "secondary"], H::EntranceRole),
            choice("Outdoors", &["outside"], YES_NO, H::EntranceOutdoors),
            choice("Environment", &["where"], &["indoors", "outdoors", "buried"], H::DropEnvironment),
            may("Calls", &["scope"], H::EntranceCalls),
            may("Station", &["model"], H::CertainModel),
            choice("Media", &[], &["video", "audio"], H::EntranceMedia),
            may("Lock", &["lockmodel"], H::LockModel),
            choice("Lock feed", &["feed"], &["station", "bus", "own-supply", "dry-contact"], H::LockFeed),
            choice("Contact", &["relay"], &["normally-open", "normally-closed"], H::LockContact),
            may("Lock cable", &[], H::LockCable),
            may("Lock length", &[], H::LockLength),
            may("Hold time", &["hold"], H::HoldTime),
            choice("Suppression", &[], &["none", "diode", "clamp", "varistor"], H::Suppression),
            choice("Exit button", &[], YES_NO, H::ExitButton),
            choice("Mechanical escape", &["handle"], YES_NO, H::MechanicalEscape),
            choice("Escape route", &["escape"], YES_NO, H::EscapeRoute),
            may("Escape decided by", &["decidedby"], H::EscapeDecidedBy),
            may("Escape decided on", &["decidedon"], H::EscapeDecidedOn),
            choice("Fire interlock", &["fire"], YES_NO, H::FireInterlock),
            choice("Heater", &[], YES_NO, H::Heater),
            may("Control height", &["height"], H::ControlHeight),
            may("Surge protection", &["surge"], H::SurgeOfDoor),
        ],
    },
    SheetForm {
        name: "Desks",
        also: &["desk", "management", "concierge"],
        required: false,
        help: H::SheetDesks,
        columns: &[
            must("Desk", &["name"], H::OwnName),
            must("Place", &["at", "node"], H::BranchesOffAt),
            may("Drop", &["dropm", "length"], H::DeskDrop),
            may("Calls", &["scope"], H::DeskCalls),
            may("Station", &["model"], H::CertainModel),
        ],
    },
    SheetForm {
        name: "Locked decisions",
        also: &["locked", "decisions", "lockeddecision"],
        required: false,
        help: H::SheetLocked,
        columns: &[
            choice("Decision", &["kind"], DECISIONS, H::Decision),
            must("What", &["where", "who", "place"], H::DecisionWhat),
            may("To", &["end"], H::DecisionTo),
            may("Part", &["model", "type"], H::DecisionPart),
        ],
    },
    SheetForm {
        name: "Prices",
        also: &["price"],
        required: false,
        help: H::SheetPrices,
        columns: &[
            must("Part", &["name", "model"], H::PricedPart),
            may("Price", &["cost"], H::Price),
            may("Minutes", &["labour", "labourminutes"], H::Minutes),
        ],
    },
];

/// Lower-case letters and digits of a heading, without what stands in brackets.
pub fn plain(text: &str) -> String {
    let text = text.split(['(', '[']).next().unwrap_or("");
    text.chars().filter(|sign| sign.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// How alike two headings must be to be taken for one with a slip of the pen.
const ALIKE: f64 = 0.93;

/// The one of `forms` that a heading means: by name, by another name, or but for a slip of the pen.
pub fn meant<'a>(
    heading: &str,
    forms: impl Iterator<Item = (usize, &'a str, &'a [&'a str])> + Clone,
) -> Option<usize> {
    let wanted = plain(heading);
    if wanted.is_empty() {
        return None;
    }
    let exact = |form: &(usize, &str, &[&str])| plain(form.1) == wanted || form.2.contains(&wanted.as_str());
    if let Some((index, ..)) = forms.clone().find(exact) {
        return Some(index);
    }
    let score = |name: &str| strsim::jaro_winkler(&wanted, name);
    forms
        .map(|(index, name, also)| {
            (also.iter().map(|name| score(name)).fold(score(&plain(name)), f64::max), index)
        })
        .filter(|(likeness, _)| *likeness >= ALIKE && wanted.chars().count() > 3)
        .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)))
        .map(|(_, index)| index)
}

/// Most names that a hint offers where they are equally near.
const MOST_NEAREST: usize = 3;
/// Most names that are all told where none is near.
const FEW: usize = 8;

/// The nearest of some names, for a hint; empty if none is near.
pub fn nearest<'a>(name: &str, known: impl Iterator<Item = &'a str>) -> Vec<String> {
    let wanted = name.to_lowercase();
    let likeness = |known: &str| strsim::jaro_winkler(&wanted, &known.to_lowercase());
    let mut all: Vec<(f64, &str)> = known.map(|known| (likeness(known), known)).collect();
    all.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
    all.dedup();
    let best = all.first().map_or(0.0, |(likeness, _)| *likeness);
    // Two short names that differ in one of two signs have 0.7.
    let near = |likeness: f64| likeness > 0.7 - 1e-9 && likeness > best - 1e-9;
    all.iter().filter(|one| near(one.0)).take(MOST_NEAREST).map(|one| one.1.to_string()).collect()
}

/// The same for a name that must be one of them: where none is near and they are few, all.
pub fn nearest_or_few<'a>(name: &str, known: impl Iterator<Item = &'a str> + Clone) -> Vec<String> {
    let near = nearest(name, known.clone());
    match near.is_empty() && known.clone().count() <= FEW {
        true => known.map(str::to_string).collect(),
        false => near,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::Language;
    use latchline_site::model::{
        COLDEST_CONDUCTOR_C, HOTTEST_CONDUCTOR_C, USUAL_CONDUCTOR_C, USUAL_END_ALLOWANCE_M,
        USUAL_LABOUR_PER_HOUR, USUAL_LENGTH_TOLERANCE, USUAL_SLACK, USUAL_THIN_MARGIN_V,
    };

    #[test]
    fn what_a_setting_is_without_is_what_its_help_says() {
        let told = [
            (H::Hottest, HOTTEST_CONDUCTOR_C),
            (H::Coldest, COLDEST_CONDUCTOR_C),
            (H::Usual, USUAL_CONDUCTOR_C),
            (H::LengthTolerance, 100.0 * USUAL_LENGTH_TOLERANCE),
            (H::Termination, USUAL_END_ALLOWANCE_M),
            (H::Labour, USUAL_LABOUR_PER_HOUR),
            (H::Slack, 100.0 * USUAL_SLACK),
            (H::ThinMargin, USUAL_THIN_MARGIN_V),
        ];
        for (help, figure) in told {
            for (language, without) in [(Language::English, "Without it"), (Language::German, "Ohne Angabe")]
            {
                let said = help.say(language);
                assert!(said.contains(&format!("{without} {figure}.")), "{said}");
            }
        }
    }
}
