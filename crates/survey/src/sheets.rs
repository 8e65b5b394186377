//! The sheets of a survey and their columns: one list for the reader, the template and the docs.

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
    pub help: &'static str,
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
    pub help: &'static str,
    /// Its columns.
    pub columns: &'static [Column],
}

const fn must(heading: &'static str, also: &'static [&'static str], help: &'static str) -> Column {
    Column { heading, also, required: true, choices: &[], help }
}

const fn may(heading: &'static str, also: &'static [&'static str], help: &'static str) -> Column {
    Column { heading, also, required: false, choices: &[], help }
}

const fn choice(
    heading: &'static str,
    also: &'static [&'static str],
    choices: &'static [&'static str],
    help: &'static str,
) -> Column {
    Column { heading, also, required: false, choices, help }
}

const YES_NO: &[&str] = &["yes", "no"];

/// What may be locked.
pub const DECISIONS: &[&str] = &["supply", "box", "route", "cable", "together", "not through"];

/// Settings of the sheet "Site": name, choices, help.
pub const SETTINGS: &[(&str, &[&str], &str)] = &[
    ("Title", &[], "Title of the site."),
    ("Country", &[], "Two letters, such as GB."),
    ("Family", &[], "Family of parts, if it is settled; else the first of the catalogue that does."),
    ("Catalogues", &[], "Further catalogue files, with semicolons between."),
    ("Media", &["video", "audio"], "Picture and speech, or speech only. Without it video."),
    ("Indoor station", &[], "Model for all dwellings; without it the cheapest of the family."),
    ("Door station", &[], "Model for all entrances; without it the cheapest that does."),
    ("Labour per hour", &[], "Price of an hour of labour, in the catalogue's currency. Without it 45."),
    ("Slack", &[], "Extra length for bends, in per cent of the route. Without it 5."),
    ("Termination", &[], "Extra length at each end of a section, in metres. Without it 0.3."),
    ("Hottest temperature", &[], "Of the cables, in °C. Without it 40."),
    ("Coldest temperature", &[], "Of the cables, in °C. Without it 0."),
    ("Usual temperature", &[], "Of the cables, in °C. Without it 20."),
    ("Length tolerance", &[], "How far true lengths may differ, in per cent. Without it 5."),
    (
        "Wiring",
        &["chains", "corridors", "stars"],
        "Chains may loop through dwellings; corridors branch off at boxes, so that no cable does; stars give each \
         dwelling a port of its own. Without it chains.",
    ),
    ("Largest silenced group", &[], "Most dwellings that one broken joint may silence."),
    ("Spare ports", &[], "Ports to keep free on every distributor that serves dwellings."),
    (
        "Growth",
        &[],
        "Stations that every run of dwellings must still be able to take, by count. Without it 0.",
    ),
    ("Standby hours", &[], "Hours that batteries must carry the site; every supply then has one."),
    ("Thin margin", &[], "Volts below which a station that passes is called thin. Without it 1."),
    ("Least margin", &[], "Volts that every station and box of the design keeps above what it needs."),
    ("No warnings", YES_NO, "yes: a design that check warns of does not count. Without it no."),
    ("One cable type", YES_NO, "yes: all new cable of the bus is of one type. Without it no."),
    (
        "Boxes in dwellings",
        YES_NO,
        "no: none at a place that the sheet Places says is in a dwelling. Without it yes.",
    ),
    (
        "Surge protection",
        &[],
        "Loop resistance in ohm of the surge protector of every run outdoors, if fitted.",
    ),
    (
        "Cables",
        &[],
        "Cables that may be pulled, with semicolons between; without it all of copper that have a price.",
    ),
    (
        "Withdrawn parts",
        &[],
        "Parts that are no longer to be had or used, with semicolons between; design --from replaces them.",
    ),
];

/// All sheets.
pub const SHEETS: &[SheetForm] = &[
    SheetForm {
        name: "Site",
        also: &["settings", "project", "policy"],
        required: false,
        help: "One setting a row.",
        columns: &[
            must("Setting", &["name", "key"], "Name of the setting."),
            may("Value", &["what"], "Its value."),
        ],
    },
    SheetForm {
        name: "Buildings",
        also: &["building", "blocks"],
        required: false,
        help: "One building a row.",
        columns: &[
            must("Building", &["name", "block"], "Short name, first part of places."),
            may("Title", &["fullname"], "Title for documents."),
            must(
                "Floors",
                &["levels", "storeys"],
                "From the lowest to the highest, with semicolons between: G; 1; 2.",
            ),
            may(
                "Cores",
                &["stairs", "risers"],
                "Stairs or risers, if there is more than one, with semicolons between.",
            ),
            may("Floor height", &["storeyheight", "heightm"], "Floor to floor in metres."),
        ],
    },
    SheetForm {
        name: "Places",
        also: &["place", "nodes", "cupboards"],
        required: true,
        help: "Cupboards, landings, doors: the places between which cables run.",
        columns: &[
            must("Place", &["name", "node"], "Name of the place."),
            may("Building", &["block"], "Building in which it is."),
            may("Core", &["stair", "riser"], "Core of that building."),
            may("Floor", &["level", "storey"], "Floor of that building."),
            choice("Mains", &["supply", "power"], YES_NO, "yes where a supply may stand."),
            choice(
                "Boxes",
                &["box", "distributor", "distributors"],
                YES_NO,
                "yes where a distributor may hang.",
            ),
            choice("Outdoors", &["outside"], YES_NO, "yes if it is outdoors."),
            choice(
                "In a dwelling",
                &["indwelling", "insideadwelling"],
                YES_NO,
                "yes if it is inside a dwelling; whether boxes may hang there is a setting of the sheet Site.",
            ),
        ],
    },
    SheetForm {
        name: "Routes",
        also: &["route", "ways", "containment"],
        required: false,
        help: "Ways between places that a cable can take, with their lengths.",
        columns: &[
            must("From", &["start", "placea"], "A place."),
            must("To", &["end", "placeb"], "Another place."),
            must("Length", &["metres", "distance", "lengthm"], "Along the way, in metres."),
            choice(
                "Environment",
                &["where"],
                &["indoors", "outdoors", "buried"],
                "Where it runs. Without it indoors.",
            ),
            choice(
                "Beside mains",
                &["mains", "withmains"],
                YES_NO,
                "yes if mains cables share it without separation.",
            ),
        ],
    },
    SheetForm {
        name: "Existing cables",
        also: &["existing", "oldcables"],
        required: false,
        help: "Cables that are already in the walls, with what was measured of them.",
        columns: &[
            must("From", &["start"], "A place, dwelling or entrance; B-45:2 for a further station of B-45."),
            must("To", &["end"], "The other end."),
            must("Cable", &["type"], "Cable of the catalogue that it is like."),
            may(
                "Length",
                &["metres", "lengthm"],
                "In metres; where nobody knows it, it follows from the measured loop.",
            ),
            may(
                "Loop",
                &["loopohm", "loopresistance"],
                "Loop resistance with the far end joined, in ohm; must be there without a length.",
            ),
            may("Capacitance", &["capacitancenf"], "With the far end open, in nF."),
            may("Insulation", &["insulationmohm"], "The lower of between conductors and to earth, in Mohm."),
        ],
    },
    SheetForm {
        name: "Dwellings",
        also: &["dwelling", "flats", "apartments", "units"],
        required: true,
        help: "One dwelling a row, in the order of the corridor.",
        columns: &[
            must("Dwelling", &["name", "flat", "apartment", "unit"], "Its name or number."),
            must("Place", &["at", "node"], "The place from which its cable branches off."),
            may(
                "Drop",
                &["dropm", "stub", "length", "dropmetres"],
                "Cable from that place to its station, in metres.",
            ),
            may("Station", &["model"], "Model, if another than everywhere."),
            may(
                "Extensions",
                &["extension"],
                "Number of further stations, or their models with semicolons between.",
            ),
            may(
                "Extension spacing",
                &["spacing"],
                "Cable from one of its stations to the next, in metres. Without it 5.",
            ),
            may("Label", &["panel", "nameplate"], "Name on the panel, if another."),
        ],
    },
    SheetForm {
        name: "Entrances",
        also: &["entrance", "doors"],
        required: true,
        help: "One way in a row.",
        columns: &[
            must("Entrance", &["name", "door"], "Its name."),
            must("Place", &["at", "node"], "The place from which its cable branches off."),
            may("Drop", &["dropm", "length"], "Cable from that place to its door station, in metres."),
            choice(
                "Role",
                &["kind"],
                &["main", "secondary"],
                "Without it secondary, or main where it is the only one.",
            ),
            choice("Outdoors", &["outside"], YES_NO, "yes if the door station is outdoors."),
            choice(
                "Environment",
                &["where"],
                &["indoors", "outdoors", "buried"],
                "Where its drop runs. Without it indoors.",
            ),
            may(
                "Calls",
                &["scope"],
                "Whom it calls, with semicolons between: everyone, a building or a part of one (A, A/1), a dwelling, a range (A-1..A-12), a desk. Without it everyone.",
            ),
            may("Station", &["model"], "Model, if a certain one."),
            choice("Media", &[], &["video", "audio"], "If not as everywhere."),
            may("Lock", &["lockmodel"], "Lock of the catalogue."),
            choice(
                "Lock feed",
                &["feed"],
                &["station", "bus", "own-supply", "dry-contact"],
                "From where the lock is fed.",
            ),
            choice("Contact", &["relay"], &["normally-open", "normally-closed"], "How the relay is wired."),
            may("Lock cable", &[], "Cable to the lock."),
            may("Lock length", &[], "Its length in metres."),
            may("Hold time", &["hold"], "Seconds."),
            choice(
                "Suppression",
                &[],
                &["none", "diode", "clamp", "varistor"],
                "What kills the coil's spike.",
            ),
            choice("Exit button", &[], YES_NO, "Whether one is fitted."),
            choice(
                "Mechanical escape",
                &["handle"],
                YES_NO,
                "Whether a handle opens it from inside without power.",
            ),
            choice(
                "Escape route",
                &["escape"],
                YES_NO,
                "Whether people escape through it; a door with a lock is not judged as a way out until it is stated.",
            ),
            may(
                "Escape decided by",
                &["decidedby"],
                "Who decided that, by role or name; without it and the date the door is not judged.",
            ),
            may("Escape decided on", &["decidedon"], "When that was decided, such as 2026-03-02."),
            choice("Fire interlock", &["fire"], YES_NO, "Whether a fire interlock acts on it."),
            choice("Heater", &[], YES_NO, "Whether the door station's heater is fitted."),
            may("Control height", &["height"], "Of the controls above the ground, in metres."),
            may("Surge protection", &["surge"], "Loop resistance of a surge protector in its line, in ohm."),
        ],
    },
    SheetForm {
        name: "Desks",
        also: &["desk", "management", "concierge"],
        required: false,
        help: "Management stations.",
        columns: &[
            must("Desk", &["name"], "Its name."),
            must("Place", &["at", "node"], "The place from which its cable branches off."),
            may("Drop", &["dropm", "length"], "Cable from that place, in metres."),
            may(
                "Calls",
                &["scope"],
                "Whom it calls, with semicolons between, as for an entrance. Without it everyone.",
            ),
            may("Station", &["model"], "Model, if a certain one."),
        ],
    },
    SheetForm {
        name: "Locked decisions",
        also: &["locked", "decisions", "lockeddecision"],
        required: false,
        help: "What is decided already and must stay so, a decision a row.",
        columns: &[
            choice(
                "Decision",
                &["kind"],
                DECISIONS,
                "supply: supplies stand at the places of such rows and nowhere else. box: a distributor stands at this place and serves at least its nearest dwelling. route: cables take this route wherever it leads on. cable: these are fed by this cable, or without a part by the old cable that leads to them. together: these dwellings are on one run. not through: no cable loops through these dwellings.",
            ),
            must(
                "What",
                &["where", "who", "place"],
                "The place; of a route its one end; else the dwellings, with semicolons between: names, ranges (A-1..A-4), a building or a part of one; for a cable also doors and desks.",
            ),
            may("To", &["end"], "The other end of a route."),
            may("Part", &["model", "type"], "The model of the box, or the cable."),
        ],
    },
    SheetForm {
        name: "Prices",
        also: &["price"],
        required: false,
        help: "Your own prices and minutes in place of the catalogue's.",
        columns: &[
            must("Part", &["name", "model"], "Name in the catalogue."),
            may("Price", &["cost"], "Of a piece, or of a metre of cable."),
            may("Minutes", &["labour", "labourminutes"], "Of labour for a piece, or for a metre of cable."),
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
