//! A plan as the site file that a person would have written.

use crate::instance::{Instance, Owner};
use crate::plan::{Plan, PlannedBox, PlannedRun, PlannedZone};
use crate::runs::sections;
use latchline_site::catalogue::Environment;
use latchline_survey::model::{Entrance, Survey};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

/// Text of a plan. `notes` are the lines of comment at its head.
pub fn site_file(instance: &Instance<'_>, plan: &Plan, notes: &[String]) -> String {
    let mut writer = Writer::new(instance, plan);
    writer.lay_out();
    writer.text(notes)
}

/// Which parts of the site have which name.
struct Writer<'w, 'a> {
    instance: &'w Instance<'a>,
    survey: &'w Survey,
    plan: &'w Plan,
    used: BTreeSet<String>,
    counts: BTreeMap<String, usize>,
    supplies: Vec<String>,
    distributors: Vec<String>,
    runs: Vec<RunLine>,
    default_cable: String,
}

/// A distributor with ports for links.
struct Head {
    name: String,
    place: usize,
    next: usize,
    ports: usize,
}

/// A line of the runs, or a comment among them.
enum RunLine {
    Comment(String),
    Run { name: String, keys: Vec<(&'static str, String)>, cable: String },
}

impl<'w, 'a> Writer<'w, 'a> {
    fn new(instance: &'w Instance<'a>, plan: &'w Plan) -> Self {
        let used = instance.items.iter().map(|item| item.name.clone()).collect();
        let mut metres: BTreeMap<usize, u64> = BTreeMap::new();
        for zone in &plan.zones {
            for run in zone.trunks.iter().flat_map(|trunk| &trunk.boxes).flat_map(|item| &item.runs) {
                if !run.choice.in_walls {
                    *metres.entry(run.choice.wire).or_default() += run.items.len() as u64;
                }
            }
        }
        let most = metres.iter().max_by_key(|(wire, count)| (**count, std::cmp::Reverse(**wire)));
        let default_cable = most.map_or(0, |(wire, _)| *wire);
        Writer {
            instance,
            survey: instance.survey,
            plan,
            used,
            counts: BTreeMap::new(),
            supplies: Vec::new(),
            distributors: Vec::new(),
            runs: Vec::new(),
            default_cable: instance.wires[default_cable].name.clone(),
        }
    }

    /// `A-D1`, `A-D2`, ...: the building of a place, a letter, the next free number.
    fn name(&mut self, place: usize, letters: &str) -> String {
        let building = self.survey.places[place].building;
        let prefix =
            building.map_or(String::new(), |at| format!("{}-", self.survey.buildings[at].name.value));
        loop {
            let stem = format!("{prefix}{letters}");
            let count = self.counts.entry(stem.clone()).or_default();
            *count += 1;
            let name = format!("{stem}{count}");
            if self.used.insert(name.clone()) {
                return name;
            }
        }
    }

    /// A name made from another one.
    fn named(&mut self, wanted: &str) -> String {
        let mut name = wanted.to_string();
        while !self.used.insert(name.clone()) {
            name.push('x');
        }
        name
    }

    fn place_key(&self, place: usize) -> Option<String> {
        let place = &self.survey.places[place];
        let Some(building) = place.building else {
            return place.outdoors.then(|| String::from("place = \"outdoors\""));
        };
        let building = &self.survey.buildings[building].name.value;
        let parts = [Some(building), place.core.as_ref(), place.floor.as_ref()];
        let words: Vec<&str> = parts.into_iter().flatten().map(String::as_str).collect();
        Some(format!("place = {}", quoted(&words.join("/"))))
    }

    fn lay_out(&mut self) {
        let mut isolators = Vec::new();
        let mut heads = Vec::new();
        for (number, zone) in self.plan.zones.iter().enumerate() {
            let supply = self.name(zone.place, "PS");
            let keys = [
                Some(format!("model = \"{}\"", self.instance.supplies[zone.supply].name)),
                self.place_key(zone.place),
            ];
            self.supplies.push(format!("{supply} = {{ {} }}", joined(keys)));
            let mut isolator = None;
            if number > 0
                && let Some(model) = &self.instance.isolator
            {
                let name = self.name(zone.isolator_place, "I");
                let keys = [Some(format!("model = \"{}\"", model.name)), self.place_key(zone.isolator_place)];
                self.distributors.push(format!(
                    "{name} = {{ {} }}   # signals over its link, power from {supply}",
                    joined(keys)
                ));
                isolator = Some(name);
            }
            let links = if number == 0 { self.plan.heads } else { None };
            heads.push(self.zone(zone, &supply, isolator.as_deref(), links));
            isolators.push((zone.isolator_place, isolator));
        }
        self.links(&isolators, &heads);
    }

    /// Supply, trunks and runs of a zone; gives the distributors that links may start from.
    fn zone(
        &mut self,
        zone: &PlannedZone,
        supply: &str,
        isolator: Option<&str>,
        links: Option<(usize, usize)>,
    ) -> Vec<Head> {
        let mut heads: Vec<Head> = Vec::new();
        let words = self.survey.places[zone.place].name.value.clone();
        self.runs.push(RunLine::Comment(format!("From {supply} ({words})")));
        if let Some(isolator) = isolator {
            let name = self.name(zone.isolator_place, "feed");
            let wire = zone.trunks.first().map_or(0, |trunk| trunk.wire);
            self.cable(&name, supply, &[isolator.to_string()], &[(zone.place, zone.isolator_place)], wire);
        }
        let mut pending: Vec<(String, PlannedBox)> = Vec::new();
        for (number, trunk) in zone.trunks.iter().enumerate() {
            let start = isolator.map_or_else(|| supply.to_string(), |name| format!("{name}.{}", number + 1));
            let mut at = if isolator.is_some() { zone.isolator_place } else { zone.place };
            let (mut names, mut ways) = (Vec::new(), Vec::new());
            if let (0, Some((model, count))) = (number, links) {
                let model = &self.instance.distributors[model];
                let place = zone.isolator_place;
                for _ in 0..count {
                    let name = self.name(place, "H");
                    let keys = [Some(format!("model = \"{}\"", model.name)), self.place_key(place)];
                    self.distributors
                        .push(format!("{name} = {{ {} }}   # signals to the other supplies", joined(keys)));
                    heads.push(Head { name: name.clone(), place, next: 1, ports: model.ports });
                    ways.push((at, place));
                    at = place;
                    names.push(name);
                }
            }
            for planned in &trunk.boxes {
                let name = self.name(planned.place, "D");
                let model = &self.instance.distributors[planned.model];
                let keys = [Some(format!("model = \"{}\"", model.name)), self.place_key(planned.place)];
                let free = model.ports.saturating_sub(planned.runs.len());
                self.distributors.push(format!(
                    "{name} = {{ {} }}   # {} of {} ports in use",
                    joined(keys),
                    model.ports - free,
                    model.ports
                ));
                ways.push((at, planned.place));
                at = planned.place;
                if heads.is_empty() {
                    let next = planned.runs.len() + 1;
                    heads.push(Head { name: name.clone(), place: planned.place, next, ports: model.ports });
                }
                names.push(name.clone());
                pending.push((name, planned.clone()));
            }
            let place = trunk.boxes.first().map_or(zone.place, |planned| planned.place);
            let name = self.name(place, "T");
            self.cable(&name, &start, &names, &ways, trunk.wire);
        }
        for (name, planned) in pending {
            self.box_runs(&name, &planned);
        }
        heads
    }

    fn links(&mut self, isolators: &[(usize, Option<String>)], heads: &[Vec<Head>]) {
        if isolators.len() > 1 {
            self.runs.push(RunLine::Comment(String::from("Signals to the other supplies' buses")));
        }
        let heads = heads.first().map_or(&[][..], Vec::as_slice);
        let mut ports = heads.iter().flat_map(|head| (head.next..=head.ports).map(move |port| (head, port)));
        for (place, isolator) in isolators.iter().skip(1) {
            let (Some(isolator), Some((head, port))) = (isolator, ports.next()) else { continue };
            let way = self.instance.way(head.place, *place);
            let environment = way.map_or(Environment::Indoors, |way| way.environment);
            let wire = self.instance.wires.iter().position(|wire| wire.environments.contains(&environment));
            let name = self.name(*place, "link");
            let stop = format!("{isolator}.link");
            let start = format!("{}.{port}", head.name);
            self.cable(&name, &start, &[stop], &[(head.place, *place)], wire.unwrap_or(0));
        }
    }

    /// A cable between boxes. A trunk wire that does not suit the way gives place to one that does.
    fn cable(&mut self, name: &str, start: &str, stops: &[String], ways: &[(usize, usize)], wire: usize) {
        let mut environment = Environment::Indoors;
        let mut beside_mains = false;
        let mut lengths = Vec::new();
        let mut buildings = BTreeSet::new();
        for &(from, to) in ways {
            buildings.extend([self.survey.places[from].building, self.survey.places[to].building]);
            let way = self.instance.way(from, to);
            lengths.push(self.instance.section_dm(way.map_or(0, |way| way.length_mm), 0));
            environment = environment.max(way.map_or(Environment::Indoors, |way| way.environment));
            beside_mains |= way.is_some_and(|way| way.beside_mains);
        }
        let wire = self.instance.trunk_wire(Some(wire), environment);
        let mut keys = vec![("from", quoted(start)), ("to", list(stops))];
        keys.push(lengths_key(&lengths));
        self.surroundings(&mut keys, environment, beside_mains, buildings.len() > 1);
        let cable = self.instance.wires[wire].name.clone();
        self.runs.push(RunLine::Run { name: name.to_string(), keys, cable });
    }

    fn surroundings(
        &self,
        keys: &mut Vec<(&'static str, String)>,
        environment: Environment,
        beside_mains: bool,
        between_buildings: bool,
    ) {
        match environment {
            Environment::Indoors => {}
            Environment::Outdoors => keys.push(("environment", quoted("outdoors"))),
            Environment::Buried => keys.push(("environment", quoted("buried"))),
        }
        if beside_mains {
            keys.push(("beside_mains", String::from("true")));
        }
        if (environment != Environment::Indoors || between_buildings)
            && let Some(ohm) = self.survey.settings.surge_protection_ohm
        {
            keys.push(("surge_protection", format!("\"{ohm} ohm\"")));
        }
    }

    fn box_runs(&mut self, name: &str, planned: &PlannedBox) {
        let words = self.survey.places[planned.place].name.value.clone();
        self.runs.push(RunLine::Comment(format!("{name} ({words})")));
        for (index, run) in planned.runs.iter().enumerate() {
            self.run(&format!("{name}.{}", index + 1), planned.place, run);
        }
    }

    fn run(&mut self, start: &str, place: usize, run: &PlannedRun) {
        let Some(sections) = sections(self.instance, place, &run.items) else { return };
        let first = &self.instance.items[run.items[0]];
        let name = match first.owner {
            Owner::Dwelling(_) => self.name(first.place, "R"),
            Owner::Entrance(_) | Owner::Desk(_) => self.named(&format!("to-{}", first.name)),
        };
        let mut stops = Vec::new();
        for &item in &run.items {
            let item = &self.instance.items[item];
            stops.push(item.name.clone());
            stops.extend((2..=item.models.len()).map(|ordinal| format!("{}:{ordinal}", item.name)));
        }
        let mut keys = vec![("from", quoted(start)), ("to", list(&stops))];
        let mut cable = self.instance.wires[run.choice.wire].name.clone();
        if run.choice.in_walls {
            cable = self.in_walls(place, run, &mut keys);
        } else {
            keys.push(lengths_key(&sections.lengths_dm));
        }
        let protected = match first.owner {
            Owner::Entrance(at) => self.survey.entrances[at].surge_protection_ohm.is_some(),
            _ => false,
        };
        let places: BTreeSet<_> = std::iter::once(place)
            .chain(run.items.iter().map(|item| self.instance.items[*item].place))
            .filter_map(|place| self.survey.places[place].building)
            .collect();
        if protected {
            let mut own = Vec::new();
            self.surroundings(&mut own, sections.environment, sections.beside_mains, false);
            own.retain(|(key, _)| *key != "surge_protection");
            keys.extend(own);
        } else {
            self.surroundings(&mut keys, sections.environment, sections.beside_mains, places.len() > 1);
        }
        if self.instance.family.terminator_required.value {
            keys.push(("terminator", String::from("true")));
        }
        self.runs.push(RunLine::Run { name, keys, cable });
    }

    /// The cables in the walls that a run uses, with what was measured of them together.
    fn in_walls(&self, place: usize, run: &PlannedRun, keys: &mut Vec<(&'static str, String)>) -> String {
        let mut before = self.survey.places[place].name.value.clone();
        let mut lengths = Vec::new();
        let mut cable = String::new();
        let (mut ohm, mut nf, mut mohm) = (Some(0.0), Some(0.0), None::<f64>);
        for &item in &run.items {
            let name = self.instance.items[item].name.clone();
            let Some(wall) = self.instance.in_walls.get(&(before, name.clone())) else { break };
            let known = &self.survey.existing[wall.index];
            lengths.push(wall.length_dm);
            cable.clone_from(&wall.cable);
            ohm = ohm.zip(known.loop_ohm).map(|(sum, own)| sum + own);
            nf = nf.zip(known.capacitance_nf).map(|(sum, own)| sum + own);
            mohm = match (mohm, known.insulation_mohm) {
                (Some(least), Some(own)) => Some(least.min(own)),
                (least, own) => least.or(own),
            };
            before = name;
        }
        keys.push(lengths_key(&lengths));
        keys.push(("existing", String::from("true")));
        let measured = [
            ohm.map(|ohm| format!("loop = \"{} ohm\"", tidy(ohm))),
            nf.map(|nf| format!("capacitance = \"{} nF\"", tidy(nf))),
            mohm.map(|mohm| format!("insulation = \"{} Mohm\"", tidy(mohm))),
        ];
        if measured.iter().any(Option::is_some) {
            keys.push(("measured", format!("{{ {} }}", joined(measured))));
        }
        cable
    }

    fn text(&self, notes: &[String]) -> String {
        let survey = self.survey;
        let settings = &survey.settings;
        let mut out = String::new();
        let mut line = |text: String| {
            out.push_str(&text);
            out.push('\n');
        };
        line(format!("# {}: made by latchline design from the survey.", one_line(&settings.title)));
        line(String::from("#"));
        for note in notes {
            line(format!("# {}", one_line(note)));
        }
        line(String::new());
        line(String::from("[site]"));
        line(format!("title = {}", quoted(&settings.title)));
        line(format!("family = {}", quoted(&self.instance.family.head.name)));
        if let Some(country) = &settings.country {
            line(format!("country = {}", quoted(country)));
        }
        line(format!("indoor_station = {}", quoted(&self.instance.default_indoor)));
        line(format!("cable = {}", quoted(&self.default_cable)));
        if !settings.catalogues.is_empty() {
            line(format!("catalogues = {}", array(&settings.catalogues)));
        }
        line(String::new());
        line(String::from("[conditions]"));
        line(format!("usual_temperature = \"{} °C\"", tidy(settings.usual_c)));
        line(format!("hottest_temperature = \"{} °C\"", tidy(settings.hottest_c)));
        line(format!("coldest_temperature = \"{} °C\"", tidy(settings.coldest_c)));
        line(format!("length_tolerance = \"{} %\"", tidy(settings.length_tolerance * 100.0)));
        let policy = self.policy();
        if !policy.is_empty() {
            line(format!("\n[policy]\n{policy}"));
        }
        if !survey.buildings.is_empty() {
            line(String::from("\n[buildings]"));
        }
        for building in &survey.buildings {
            let keys = [
                building.title.as_ref().map(|title| format!("title = {}", quoted(title))),
                Some(format!("floors = {}", array(&building.floors))),
                (!building.cores.is_empty()).then(|| format!("cores = {}", array(&building.cores))),
                building.floor_height_m.map(|height| format!("floor_height = \"{} m\"", tidy(height))),
            ];
            line(format!("{} = {{ {} }}", key(&building.name.value), joined(keys)));
        }
        line(String::from("\n[supplies]"));
        self.supplies.iter().for_each(|supply| line(supply.clone()));
        line(String::from("\n[distributors]"));
        self.distributors.iter().for_each(|distributor| line(distributor.clone()));
        if !survey.entrances.is_empty() {
            line(String::from("\n# --- Entrances: who can call whom, and what opens ---"));
        }
        for (index, entrance) in survey.entrances.iter().enumerate() {
            line(String::new());
            line(self.entrance(index, entrance));
        }
        if !survey.desks.is_empty() {
            line(String::from("\n[management]"));
        }
        let items = &self.instance.items;
        for item in items {
            let Owner::Desk(index) = item.owner else { continue };
            let desk = &survey.desks[index];
            let keys = [
                Some(format!("model = {}", quoted(&item.models[0]))),
                self.place_key(desk.place),
                (!desk.calls.is_empty()).then(|| format!("calls = {}", array(&desk.calls))),
            ];
            line(format!("{} = {{ {} }}", key(&item.name), joined(keys)));
        }
        line(String::from("\n# --- Dwellings ---\n\n[dwellings]"));
        for item in items {
            let Owner::Dwelling(index) = item.owner else { continue };
            let dwelling = &survey.dwellings[index];
            let main = &item.models[0];
            let keys = [
                self.place_key(dwelling.place),
                (*main != self.instance.default_indoor).then(|| format!("station = {}", quoted(main))),
                (item.models.len() > 1).then(|| format!("extensions = {}", array(&item.models[1..]))),
                dwelling.label.as_ref().map(|label| format!("label = {}", quoted(label))),
            ];
            line(format!("{} = {{ {} }}", key(&item.name), joined(keys)));
        }
        line(String::from("\n# --- Runs: from here, to these in this order ---\n\n[runs]"));
        for run in &self.runs {
            match run {
                RunLine::Comment(text) => line(format!("# {}", one_line(text))),
                RunLine::Run { name, keys, cable } => {
                    let mut parts: Vec<String> =
                        keys.iter().map(|(key, value)| format!("{key} = {value}")).collect();
                    if *cable != self.default_cable {
                        parts.insert(2, format!("cable = {}", quoted(cable)));
                    }
                    line(format!("{} = {{ {} }}", key(name), parts.join(", ")));
                }
            }
        }
        out
    }

    fn policy(&self) -> String {
        let settings = &self.survey.settings;
        let mut text = String::new();
        if let Some(margin) = settings.thin_margin_v {
            let _ = writeln!(text, "thin_margin = \"{} V\"", tidy(margin));
        }
        if let Some(group) = &settings.largest_group {
            let _ = writeln!(text, "largest_silenced_group = {}", group.value);
        }
        if !settings.chains.value {
            let _ = writeln!(text, "chains_through_dwellings = false");
        }
        if let Some(spare) = &settings.spare_ports {
            let _ = writeln!(text, "spare_ports = {}", spare.value);
        }
        if let Some(hours) = &settings.standby_hours {
            let _ = writeln!(text, "standby_hours = {}", tidy(hours.value));
        }
        text.trim_end().to_string()
    }

    fn entrance(&self, index: usize, entrance: &Entrance) -> String {
        let item = self.instance.items.iter().find(|item| item.owner == Owner::Entrance(index));
        let mut lines = vec![format!("[entrances.{}]", key(&entrance.name.value))];
        lines.push(format!("role = \"{}\"", if entrance.main { "main" } else { "secondary" }));
        lines.extend(self.place_key(entrance.place));
        if entrance.outdoors {
            lines.push(String::from("outdoors = true"));
        }
        if let Some(item) = item {
            lines.push(format!("station = {}", quoted(&item.models[0])));
        }
        if !entrance.calls.is_empty() {
            lines.push(format!("calls = {}", array(&entrance.calls)));
        }
        for (flag, name) in [
            (entrance.heater, "heater"),
            (entrance.escape_route, "escape_route"),
            (entrance.fire_interlock, "fire_interlock"),
        ] {
            if flag {
                lines.push(format!("{name} = true"));
            }
        }
        if let Some(height) = entrance.control_height_m {
            lines.push(format!("control_height = \"{} m\"", tidy(height)));
        }
        if let Some(ohm) = entrance.surge_protection_ohm {
            lines.push(format!("surge_protection = \"{} ohm\"", tidy(ohm)));
        }
        if let Some(lock) = &entrance.lock {
            let quote = |name: &str, text: &Option<String>| {
                text.as_ref().map(|text| format!("{name} = {}", quoted(text)))
            };
            // The relay sits in the door station; where it is wired safely, the survey's person knows.
            let keys = [
                Some(format!("model = {}", quoted(&lock.model.value))),
                quote("feed", &lock.feed),
                quote("contact", &lock.contact),
                quote("cable", &lock.cable),
                lock.length_m.map(|length| format!("length = \"{} m\"", tidy(length))),
                lock.hold_s.map(|hold| format!("hold_time = \"{} s\"", tidy(hold))),
                quote("suppression", &lock.suppression),
                lock.exit_button.then(|| String::from("exit_button = true")),
                lock.mechanical_escape.then(|| String::from("mechanical_escape = true")),
            ];
            lines.push(format!("lock = {{ {} }}", joined(keys)));
        }
        lines.join("\n")
    }
}

fn joined<const N: usize>(keys: [Option<String>; N]) -> String {
    keys.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

fn one_line(text: &str) -> String {
    text.chars().map(|sign| if sign.is_control() { ' ' } else { sign }).collect()
}

/// A TOML basic string.
fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for sign in text.chars() {
        match sign {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            sign if sign.is_control() => {
                let _ = write!(out, "\\u{:04X}", u32::from(sign));
            }
            sign => out.push(sign),
        }
    }
    out.push('"');
    out
}

/// A TOML key: bare where it can be.
fn key(name: &str) -> String {
    let bare = |sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '-' | '_');
    if !name.is_empty() && name.chars().all(bare) { name.to_string() } else { quoted(name) }
}

fn array(texts: &[String]) -> String {
    let texts: Vec<String> = texts.iter().map(|text| quoted(text)).collect();
    format!("[{}]", texts.join(", "))
}

/// One text alone, several as an array.
fn list(texts: &[String]) -> String {
    match texts {
        [one] => quoted(one),
        several => array(several),
    }
}

/// A number without needless decimals.
fn tidy(value: f64) -> String {
    let text = format!("{value:.4}");
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

fn metres(length_dm: u32) -> String {
    format!("\"{} m\"", tidy(f64::from(length_dm) / 10.0))
}

/// Lengths as a person writes them: one, first and spacing, or all.
fn lengths_key(lengths_dm: &[u32]) -> (&'static str, String) {
    match lengths_dm {
        [one] => ("length", metres(*one)),
        [first, rest @ ..] if rest.len() > 1 && rest.iter().all(|length| *length == rest[0]) => {
            ("first", format!("{}, spacing = {}", metres(*first), metres(rest[0])))
        }
        all => {
            let all: Vec<String> = all.iter().map(|length| metres(*length)).collect();
            ("lengths", format!("[{}]", all.join(", ")))
        }
    }
}
