//! The runs of a distributor: chains, and risers with branch boxes, as lines of the site file.

use crate::branches::Branching;
use crate::emit::{RunLine, Writer};
use crate::item::Owner;
use crate::parts::InWall;
use crate::plan::{PlannedBox, PlannedRun};
use crate::sections::{Sections, chain_in_walls, sections};
use crate::toml_text::{in_metres, joined, lengths_keys, list, place_key, quoted, surroundings, tidy};
use latchline_words::design::FileComment;
use std::collections::BTreeSet;

/// A cable of the site file in the making.
struct Line<'l> {
    name: String,
    start: String,
    stops: Vec<String>,
    /// Where it starts and what places it reaches.
    places: Vec<usize>,
    sections: &'l Sections,
    /// The cables in the walls that it is, if it is not new.
    walls: Option<&'l [&'l InWall]>,
    wire: usize,
    /// Whether the entrance that it leads to has surge protection of its own.
    is_protected: bool,
    /// Whether a station ends it.
    ends_at_station: bool,
}

impl Writer<'_, '_> {
    pub(crate) fn box_runs(&mut self, name: &str, planned: &PlannedBox) {
        let words = self.survey.places[planned.place].name.value.clone();
        self.runs.push(RunLine::Comment(format!("{name} ({words})")));
        for (index, run) in planned.runs.iter().enumerate() {
            self.run(&format!("{name}.{}", index + 1), planned.place, run);
        }
    }

    /// A run from a port or an output.
    pub(crate) fn run(&mut self, start: &str, place: usize, run: &PlannedRun) {
        match &run.branching {
            Some(branching) => self.branched(start, place, run, branching),
            None => self.chain(start, place, &run.items, run.choice.wire),
        }
    }

    /// A riser through its branch boxes, and the chains from each.
    fn branched(&mut self, start: &str, place: usize, run: &PlannedRun, branching: &Branching) {
        let instance = self.instance;
        let Some(riser) = branching.riser(instance, place) else { return };
        let walls = branching.riser_in_walls(instance, place, riser.environment);
        let mut names = Vec::new();
        for branch in &branching.boxes {
            let name = self.name(branch.place, "B");
            let model = &instance.branch_boxes[branch.model];
            let keys =
                [Some(format!("model = {}", quoted(&model.name))), place_key(self.survey, branch.place)];
            let used = branch.chains.len();
            let comment = self.ports_in_use(used, model.ports);
            let text = format!("{name} = {{ {} }}   # {comment}", joined(keys));
            self.branch_boxes.push(text);
            names.push(name);
        }
        let name = self.name(place, "riser");
        self.line(&Line {
            name,
            start: start.to_string(),
            stops: names.clone(),
            places: std::iter::once(place).chain(branching.boxes.iter().map(|branch| branch.place)).collect(),
            sections: &riser,
            walls: walls.as_deref(),
            wire: run.choice.wire.unwrap_or(0),
            is_protected: false,
            ends_at_station: false,
        });
        for (branch, name) in branching.boxes.iter().zip(&names) {
            for (port, items) in branch.chains.iter().enumerate() {
                let sections = sections(instance, branch.place, items);
                let in_walls = sections.is_some_and(|sections| {
                    chain_in_walls(instance, branch.place, items, sections.environment).is_some()
                });
                let wire = if in_walls { None } else { run.choice.wire };
                self.chain(&format!("{name}.{}", port + 1), branch.place, items, wire);
            }
        }
    }

    /// A chain; without a wire it is of the cables in the walls.
    fn chain(&mut self, start: &str, place: usize, items: &[usize], wire: Option<usize>) {
        let instance = self.instance;
        let Some(sections) = sections(instance, place, items) else { return };
        let first = &instance.items[items[0]];
        let is_alone = items.len() == 1 && !matches!(first.owner, Owner::Dwelling(_));
        let name =
            if is_alone { self.named(&format!("to-{}", first.name)) } else { self.name(first.place, "R") };
        let stops = items.iter().flat_map(|item| instance.items[*item].stops.clone()).collect();
        let walls =
            if wire.is_none() { chain_in_walls(instance, place, items, sections.environment) } else { None };
        let is_protected = match first.owner {
            Owner::Entrance(at) => self.survey.entrances[at].surge_protection_ohm.is_some(),
            _ => false,
        };
        self.line(&Line {
            name,
            start: start.to_string(),
            stops,
            places: std::iter::once(place)
                .chain(items.iter().map(|item| instance.items[*item].place))
                .collect(),
            sections: &sections,
            walls: walls.as_deref(),
            wire: wire.unwrap_or(0),
            is_protected,
            ends_at_station: true,
        });
    }

    fn line(&mut self, line: &Line<'_>) {
        let mut keys = vec![("from", quoted(&line.start)), ("to", list(&line.stops))];
        let mut cable = self.instance.wires[line.wire].name.clone();
        match line.walls {
            Some(walls) => {
                cable = walls.first().map_or(cable, |wall| wall.cable.clone());
                if walls.iter().any(|wall| self.survey.existing[wall.index].stated_m.is_none()) {
                    let derived = self.comment(&FileComment::LengthFromLoop);
                    self.runs.push(RunLine::Comment(derived));
                }
                self.walls_used.extend(walls.iter().map(|wall| wall.index));
                self.in_walls(walls, &mut keys);
            }
            None => keys.extend(lengths_keys(&in_metres(&line.sections.lengths_dm))),
        }
        let buildings: BTreeSet<_> =
            line.places.iter().filter_map(|place| self.survey.places[*place].building).collect();
        let mut around = Vec::new();
        let between = buildings.len() > 1 && !line.is_protected;
        let Sections { environment, beside_mains, .. } = line.sections;
        surroundings(self.survey, &mut around, *environment, *beside_mains, between);
        around.retain(|(key, _)| !line.is_protected || *key != "surge_protection");
        keys.extend(around);
        if line.ends_at_station && self.instance.family.terminator_required.value {
            keys.push(("terminator", String::from("true")));
        }
        self.runs.push(RunLine::Run { name: line.name.clone(), keys, cable });
    }

    /// The cables in the walls that a run uses, with what was measured of them together.
    fn in_walls(&self, walls: &[&InWall], keys: &mut Vec<(&'static str, String)>) {
        let mut lengths = Vec::new();
        let (mut ohm, mut nf, mut mohm) = (Some(0.0), Some(0.0), None::<f64>);
        for wall in walls {
            let known = &self.survey.existing[wall.index];
            lengths.push(wall.length_dm);
            ohm = ohm.zip(known.loop_ohm).map(|(sum, own)| sum + own);
            nf = nf.zip(known.capacitance_nf).map(|(sum, own)| sum + own);
            mohm = match (mohm, known.insulation_mohm) {
                (Some(least), Some(own)) => Some(least.min(own)),
                (least, own) => least.or(own),
            };
        }
        keys.extend(lengths_keys(&in_metres(&lengths)));
        keys.push(("existing", String::from("true")));
        let measured = [
            ohm.map(|ohm| format!("loop = \"{} ohm\"", tidy(ohm))),
            nf.map(|nf| format!("capacitance = \"{} nF\"", tidy(nf))),
            mohm.map(|mohm| format!("insulation = \"{} Mohm\"", tidy(mohm))),
        ];
        if measured.iter().any(Option::is_some) {
            keys.push(("measured", format!("{{ {} }}", joined(measured))));
        }
    }
}
