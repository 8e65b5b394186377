//! A plan as the site file that a person would have written.

use crate::instance::Instance;
use crate::plan::{Plan, PlannedBox, PlannedTrunk, PlannedZone};
use crate::toml_text::{in_metres, joined, lengths_keys, list, place_key, quoted, surroundings};
use latchline_finding::Language;
use latchline_site::catalogue::Environment;
use latchline_survey::model::Survey;
use latchline_words::design::FileComment;
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// Text of the plans of one or several buses, its comments in a language. `notes` are the lines of comment at its head.
pub fn site_file(instance: &Instance<'_>, buses: &[&Plan], notes: &[String], language: Language) -> String {
    let mut writer = Writer::new(instance, buses, language);
    for plan in buses {
        writer.lay_out(plan);
    }
    writer.text(notes)
}

/// Which cables in the walls these plans use: indices into the survey's list.
pub fn old_cable_used(instance: &Instance<'_>, buses: &[&Plan]) -> BTreeSet<usize> {
    let mut writer = Writer::new(instance, buses, Language::English);
    for plan in buses {
        writer.lay_out(plan);
    }
    writer.walls_used
}

/// Which parts of the site have which name.
pub(crate) struct Writer<'w, 'a> {
    pub(crate) instance: &'w Instance<'a>,
    pub(crate) survey: &'w Survey,
    used: BTreeSet<String>,
    counts: BTreeMap<String, usize>,
    pub(crate) supplies: Vec<String>,
    pub(crate) distributors: Vec<String>,
    pub(crate) branch_boxes: Vec<String>,
    pub(crate) runs: Vec<RunLine>,
    /// Cables in the walls that runs use: indices into the survey's list.
    pub(crate) walls_used: BTreeSet<usize>,
    pub(crate) default_cable: String,
    language: Language,
}

/// A distributor with ports for links.
struct Head {
    name: String,
    place: usize,
    next: usize,
    ports: usize,
}

/// A line of the runs, or a comment among them.
pub(crate) enum RunLine {
    Comment(String),
    Run { name: String, keys: Vec<(&'static str, String)>, cable: String },
}

impl<'w, 'a> Writer<'w, 'a> {
    fn new(instance: &'w Instance<'a>, buses: &[&Plan], language: Language) -> Self {
        let used = instance.items.iter().map(|item| item.name.clone()).collect();
        let mut metres: BTreeMap<usize, u64> = BTreeMap::new();
        for (_, run) in buses.iter().flat_map(|plan| plan.runs()) {
            if let Some(wire) = run.choice.wire {
                *metres.entry(wire).or_default() += run.items.len() as u64;
            }
        }
        let most = metres.iter().max_by_key(|(wire, count)| (**count, std::cmp::Reverse(**wire)));
        let default_cable = most.map_or(0, |(wire, _)| *wire);
        Writer {
            instance,
            survey: instance.survey,
            used,
            counts: BTreeMap::new(),
            supplies: Vec::new(),
            distributors: Vec::new(),
            branch_boxes: Vec::new(),
            runs: Vec::new(),
            walls_used: BTreeSet::new(),
            default_cable: instance.wires[default_cable].name.clone(),
            language,
        }
    }

    /// `A-D1`, `A-D2`, ...: the building of a place, a letter, the next free number.
    pub(crate) fn name(&mut self, place: usize, letters: &str) -> String {
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
    pub(crate) fn named(&mut self, wanted: &str) -> String {
        let mut name = wanted.to_string();
        while !self.used.insert(name.clone()) {
            name.push('x');
        }
        name
    }

    fn lay_out(&mut self, plan: &Plan) {
        let mut isolators = Vec::new();
        let mut heads = Vec::new();
        for (number, zone) in plan.zones.iter().enumerate() {
            let supply = self.name(zone.place, "PS");
            let keys = [
                Some(format!("model = \"{}\"", self.instance.supplies[zone.supply].name)),
                place_key(self.survey, zone.place),
                (zone.batteries > 1).then(|| format!("batteries = {}", zone.batteries)),
            ];
            self.supplies.push(format!("{supply} = {{ {} }}", joined(keys)));
            let mut isolator = None;
            if number > 0
                && let Some(model) = &self.instance.isolator
            {
                let name = self.name(zone.isolator_place, "I");
                let keys = [
                    Some(format!("model = \"{}\"", model.name)),
                    place_key(self.survey, zone.isolator_place),
                ];
                let comment = self.comment(&FileComment::SignalsOverLink { supply: &supply });
                self.distributors.push(format!("{name} = {{ {} }}   # {comment}", joined(keys)));
                isolator = Some(name);
            }
            let links = if number == 0 { plan.heads } else { None };
            heads.push(self.zone(zone, &supply, isolator.as_deref(), links));
            isolators.push((zone.isolator_place, isolator));
        }
        self.links(&isolators, &heads);
    }

    /// A comment in the language of the file.
    pub(crate) fn comment(&self, comment: &FileComment<'_>) -> String {
        comment.say(self.language)
    }

    /// How many ports of a box are taken.
    pub(crate) fn ports_in_use(&self, used: usize, ports: usize) -> String {
        let (used, ports) = (&used.to_string(), &ports.to_string());
        self.comment(&FileComment::PortsInUse { used, ports })
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
        let comment = self.comment(&FileComment::From { supply, place: &words });
        self.runs.push(RunLine::Comment(comment));
        if let Some(isolator) = isolator {
            let name = self.name(zone.isolator_place, "feed");
            let wire = zone.trunks.first().map_or((0, 1), |trunk| (trunk.wire, trunk.pairs));
            self.cable(&name, supply, &[isolator.to_string()], &[(zone.place, zone.isolator_place)], wire);
        }
        let mut pending: Vec<(String, &PlannedBox)> = Vec::new();
        for (number, trunk) in zone.trunks.iter().enumerate() {
            let start = isolator.map_or_else(|| supply.to_string(), |name| format!("{name}.{}", number + 1));
            let mut at = if isolator.is_some() { zone.isolator_place } else { zone.place };
            let (mut names, mut ways) = (Vec::new(), Vec::new());
            if let (0, Some((model, count))) = (number, links) {
                let model = &self.instance.distributors[model];
                let place = zone.isolator_place;
                for _ in 0..count {
                    let name = self.name(place, "H");
                    let keys = [Some(format!("model = \"{}\"", model.name)), place_key(self.survey, place)];
                    let comment = self.comment(&FileComment::SignalsToOthers);
                    self.distributors.push(format!("{name} = {{ {} }}   # {comment}", joined(keys)));
                    heads.push(Head { name: name.clone(), place, next: 1, ports: model.ports });
                    ways.push((at, place));
                    at = place;
                    names.push(name);
                }
            }
            if let Some(run) = &trunk.run {
                self.run(&start, at, run);
                continue;
            }
            for (name, planned) in self.trunk(&start, at, (names, ways), trunk) {
                if heads.is_empty() {
                    let next = planned.runs.len() + planned.trunks.len() + 1;
                    let ports = self.instance.distributors[planned.model].ports;
                    heads.push(Head { name: name.clone(), place: planned.place, next, ports });
                }
                pending.push((name, planned));
            }
        }
        // What hangs on ports follows the trunks; trunks on ports bring further boxes.
        let mut pending: VecDeque<_> = pending.into();
        while let Some((name, planned)) = pending.pop_front() {
            self.box_runs(&name, planned);
            for (number, trunk) in planned.trunks.iter().enumerate() {
                let start = format!("{name}.{}", planned.runs.len() + number + 1);
                pending.extend(self.trunk(&start, planned.place, (Vec::new(), Vec::new()), trunk));
            }
        }
        heads
    }

    /// A trunk from a place through its distributors, behind those that it passes already; gives their names.
    fn trunk<'t>(
        &mut self,
        start: &str,
        from: usize,
        (mut names, mut ways): (Vec<String>, Vec<(usize, usize)>),
        trunk: &'t PlannedTrunk,
    ) -> Vec<(String, &'t PlannedBox)> {
        let mut at = from;
        let mut boxes = Vec::new();
        for planned in &trunk.boxes {
            let name = self.name(planned.place, "D");
            let model = &self.instance.distributors[planned.model];
            let keys = [Some(format!("model = \"{}\"", model.name)), place_key(self.survey, planned.place)];
            let used = planned.runs.len() + planned.trunks.len();
            let comment = self.ports_in_use(used, model.ports);
            self.distributors.push(format!("{name} = {{ {} }}   # {comment}", joined(keys)));
            ways.push((at, planned.place));
            at = planned.place;
            names.push(name.clone());
            boxes.push((name, planned));
        }
        let place = trunk.boxes.first().map_or(from, |planned| planned.place);
        let name = self.name(place, "T");
        self.cable(&name, start, &names, &ways, (trunk.wire, trunk.pairs));
        boxes
    }

    fn links(&mut self, isolators: &[(usize, Option<String>)], heads: &[Vec<Head>]) {
        if isolators.len() > 1 {
            let comment = self.comment(&FileComment::SignalsToBuses);
            self.runs.push(RunLine::Comment(comment));
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
            self.cable(&name, &start, &[stop], &[(head.place, *place)], (wire.unwrap_or(0), 1));
        }
    }

    /// A cable between boxes. A trunk wire that does not suit the way gives place to one that does.
    fn cable(
        &mut self,
        name: &str,
        start: &str,
        stops: &[String],
        ways: &[(usize, usize)],
        (wire, pairs): (usize, u32),
    ) {
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
        keys.extend(lengths_keys(&in_metres(&lengths)));
        surroundings(self.survey, &mut keys, environment, beside_mains, buildings.len() > 1);
        if pairs > 1 && self.instance.wires[wire].pairs >= pairs {
            keys.push(("pairs", pairs.to_string()));
        }
        let cable = self.instance.wires[wire].name.clone();
        self.runs.push(RunLine::Run { name: name.to_string(), keys, cable });
    }
}
