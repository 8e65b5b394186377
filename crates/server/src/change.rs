//! What a page asks for, as an edit of the text with what it expects to find there.

pub(crate) use latchline_site::edit::quoted;

use latchline_finding::{Both, Change, Edit, EditStep, Language, METRES_PER_FOOT};
use latchline_site::model::{RunStop, Site, StationOwner};
use latchline_words::office::Told;
use serde::Deserialize;

/// What a page asks for.
#[derive(Debug, Clone, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
pub(crate) enum Asked {
    /// Another cable.
    Cable { run: String, cable: String },
    /// Lengths of all sections, as typed.
    Lengths { run: String, lengths: String },
    /// Pairs in parallel.
    Pairs { run: String, pairs: u32 },
    /// Another port.
    Port { run: String, from: String },
    /// The stops in another order, as typed; each keeps the length that led to it.
    Order { run: String, stops: String },
    /// Another model.
    Model { element: String, model: String },
    /// A station goes to the end of another run.
    Move { station: String, run: String, length: String },
    /// A new dwelling at the end of a run.
    AddDwelling { name: String, place: String, run: String, length: String },
    /// A further station of a dwelling, after its last one.
    AddExtension { dwelling: String, model: String, length: String },
    /// A dwelling goes, with all its stations.
    Remove { dwelling: String },
    /// The finding is known and stays.
    Accept { code: String, element: String, reason: String, date: String },
    /// A remedy of a finding, by its number there.
    Remedy { code: String, element: String, remedy: usize },
    /// The change of the job whose first finding this is: two remedies made one are none of any finding.
    Job { code: String, element: String },
    /// The whole text.
    Text { text: String },
    /// The text of an earlier revision.
    BringBack { number: i64 },
}

/// An edit with what it changes, in words.
#[derive(Debug)]
pub(crate) struct Meant {
    pub edit: Edit,
    pub note: String,
}

/// A site to be changed: the model, and the text as values.
pub(crate) struct Ground<'a> {
    pub site: &'a Site,
    pub values: &'a toml::Table,
    pub language: Language,
}

type Answer = Result<Meant, Both>;

impl Ground<'_> {
    fn told(&self, edit: Edit, note: &Told<'_>) -> Answer {
        Ok(Meant { edit, note: note.say(self.language) })
    }

    fn no_such(&self, name: &str) -> Both {
        Told::NoSuch { name }.both()
    }

    fn run(&self, name: &str) -> Result<&latchline_site::model::Run, Both> {
        self.site.runs.iter().find(|run| run.id.as_str() == name).ok_or_else(|| self.no_such(name))
    }

    fn has(&self, path: &[&str]) -> bool {
        let mut at = Some(self.values);
        for (depth, step) in path.iter().enumerate() {
            let Some(value) = at.and_then(|table| table.get(*step)) else { return false };
            if depth + 1 == path.len() {
                return true;
            }
            at = value.as_table();
        }
        false
    }

    /// The edit for what is asked; remedies, texts and revisions are looked up elsewhere.
    pub fn meant(&self, asked: &Asked) -> Answer {
        match asked {
            Asked::Cable { run, cable } => {
                self.run(run)?;
                if !self.site.catalogue.cables.contains_key(cable) {
                    return Err(self.no_such(cable));
                }
                self.told(
                    Edit::set(&["runs", run, "cable"], quoted(cable)),
                    &Told::ChangedCable { run, cable },
                )
            }
            Asked::Lengths { run, lengths } => {
                let lengths = self.lengths(lengths)?;
                let wanted = self.run(run)?.sections.len();
                if lengths.len() != wanted {
                    return Err(Told::TooFewLengths { found: lengths.len(), wanted }.both());
                }
                self.told(self.set_lengths(run, &lengths), &Told::ChangedLengths { run })
            }
            Asked::Pairs { run, pairs } => {
                self.run(run)?;
                let edit = Edit::set(&["runs", run, "pairs"], pairs.to_string());
                self.told(edit, &Told::ChangedPairs { run, pairs: *pairs as usize })
            }
            Asked::Port { run, from } => {
                self.run(run)?;
                self.told(
                    Edit::set(&["runs", run, "from"], quoted(from)),
                    &Told::ChangedPort { run, port: from },
                )
            }
            Asked::Order { run, stops } => self.order(run, stops),
            Asked::Model { element, model } => self.model(element, model),
            Asked::Move { station, run, length } => self.move_station(station, run, length),
            Asked::AddDwelling { name, place, run, length } => self.add_dwelling(name, place, run, length),
            Asked::AddExtension { dwelling, model, length } => self.add_extension(dwelling, model, length),
            Asked::Remove { dwelling } => self.remove(dwelling),
            Asked::Accept { code, element, reason, date } => self.accept(code, element, reason, date),
            Asked::Remedy { .. } | Asked::Job { .. } | Asked::Text { .. } | Asked::BringBack { .. } => {
                Err(self.no_such(""))
            }
        }
    }

    /// Lengths as people type them: metres unless feet are said, comma or point.
    fn lengths(&self, text: &str) -> Result<Vec<f64>, Both> {
        let bare = text.replace(['·', ';', '/'], " ");
        let words: Vec<&str> = bare.split_whitespace().collect();
        let mut lengths = Vec::new();
        let mut at = 0;
        while at < words.len() {
            let word = words[at].trim_end_matches(',');
            let (number, mut unit) =
                word.find(|sign: char| sign.is_alphabetic()).map_or((word, ""), |end| word.split_at(end));
            if unit.is_empty() && matches!(words.get(at + 1), Some(&"m" | &"ft" | &"m," | &"ft,")) {
                at += 1;
                unit = words[at].trim_end_matches(',');
            }
            let factor = match unit {
                "" | "m" => 1.0,
                "ft" => METRES_PER_FOOT,
                _ => return Err(Told::NotALength { text: word }.both()),
            };
            let number = number
                .replace(',', ".")
                .parse::<f64>()
                .ok()
                .filter(|number| number.is_finite() && *number >= 0.0);
            let number = number.ok_or_else(|| Told::NotALength { text: word }.both())?;
            lengths.push(number * factor);
            at += 1;
        }
        Ok(lengths)
    }

    fn one_length(&self, text: &str) -> Result<f64, Both> {
        match self.lengths(text)?.as_slice() {
            [one] => Ok(*one),
            _ => Err(Told::NotALength { text }.both()),
        }
    }

    /// The edit that gives a run these lengths, however they were given before.
    fn set_lengths(&self, run: &str, lengths: &[f64]) -> Edit {
        let (key, value) = match lengths {
            [one] if self.has(&["runs", run, "length"]) => ("length", metres(*one)),
            all => {
                let all: Vec<String> = all.iter().map(|length| metres(*length)).collect();
                ("lengths", format!("[{}]", all.join(", ")))
            }
        };
        let mut edit = Edit::default();
        for other in ["length", "lengths", "first", "spacing"] {
            if other != key && self.has(&["runs", run, other]) {
                edit = edit.then(Edit::remove(&["runs", run, other]));
            }
        }
        edit.then(Edit::set(&["runs", run, key], value))
    }

    /// The edit that gives a run these stops with these lengths.
    fn set_stops(&self, run: &str, stops: &[(String, f64)]) -> Edit {
        let names: Vec<String> = stops.iter().map(|(name, _)| quoted(name)).collect();
        let lengths: Vec<f64> = stops.iter().map(|(_, length)| *length).collect();
        Edit::set(&["runs", run, "to"], format!("[{}]", names.join(", ")))
            .then(self.set_lengths(run, &lengths))
    }

    /// The stops of a run as the file names them, with the lengths that lead there.
    fn stops(&self, run: &latchline_site::model::Run) -> Vec<(String, f64)> {
        let named = |stop: RunStop| match stop {
            RunStop::BoxLink(_) => format!("{}.link", self.site.stop_id(stop)),
            stop => self.site.stop_id(stop).to_string(),
        };
        run.sections.iter().map(|section| (named(section.to), section.length.value.as_metres())).collect()
    }

    fn order(&self, run: &str, stops: &str) -> Answer {
        let old = self.stops(self.run(run)?);
        let mut new = Vec::new();
        for name in stops.split([' ', ',']).filter(|name| !name.is_empty()) {
            let known = old.iter().find(|(known, _)| known == name).ok_or_else(|| self.no_such(name))?;
            new.push(known.clone());
        }
        if new.len() != old.len() {
            return Err(Told::TooFewLengths { found: new.len(), wanted: old.len() }.both());
        }
        self.told(self.set_stops(run, &new), &Told::ChangedOrder { run })
    }

    fn model(&self, element: &str, model: &str) -> Answer {
        let site = self.site;
        let is_it = |id: &latchline_finding::ElementId| id.as_str() == element;
        let note = Told::ChangedModel { element, model };
        if site.supplies.iter().any(|supply| is_it(&supply.id)) {
            return self.told(Edit::set(&["supplies", element, "model"], quoted(model)), &note);
        }
        if site.boxes.iter().any(|entry| is_it(&entry.id)) {
            let table = if self.has(&["distributors", element]) { "distributors" } else { "branch-boxes" };
            return self.told(Edit::set(&[table, element, "model"], quoted(model)), &note);
        }
        let station =
            site.stations.iter().find(|station| is_it(&station.id)).ok_or_else(|| self.no_such(element))?;
        let edit = match station.owner {
            StationOwner::Dwelling { dwelling, ordinal: 0 } => {
                Edit::set(&["dwellings", site.dwellings[dwelling].id.as_str(), "station"], quoted(model))
            }
            StationOwner::Dwelling { dwelling, ordinal } => {
                let path = [
                    EditStep::from("dwellings"),
                    EditStep::from(site.dwellings[dwelling].id.as_str()),
                    EditStep::from("extensions"),
                    EditStep::Index(ordinal - 1),
                ];
                Edit { changes: vec![(path.to_vec(), Change::Set(quoted(model)))] }
            }
            StationOwner::Entrance(at) => {
                Edit::set(&["entrances", site.entrances[at].id.as_str(), "station"], quoted(model))
            }
            StationOwner::Management(at) => {
                Edit::set(&["management", site.management[at].id.as_str(), "station"], quoted(model))
            }
        };
        self.told(edit, &note)
    }

    /// Takes a station out of its run: what led on from it is joined to what led there.
    fn taken_out(&self, names: &[String]) -> Edit {
        let mut edit = Edit::default();
        for run in &self.site.runs {
            let old = self.stops(run);
            let mut new: Vec<(String, f64)> = Vec::new();
            let mut carried = 0.0;
            for (name, length) in &old {
                if names.contains(name) {
                    carried += length;
                } else {
                    new.push((name.clone(), length + carried));
                    carried = 0.0;
                }
            }
            if new.len() == old.len() {
                continue;
            }
            edit = if new.is_empty() {
                edit.then(Edit::remove(&["runs", run.id.as_str()]))
            } else {
                edit.then(self.set_stops(run.id.as_str(), &new))
            };
        }
        edit
    }

    fn move_station(&self, station: &str, run: &str, length: &str) -> Answer {
        let to = self.run(run)?;
        if !self.site.stations.iter().any(|known| known.id.as_str() == station) {
            return Err(self.no_such(station));
        }
        let mut stops = self.stops(to);
        stops.retain(|(name, _)| name != station);
        stops.push((station.to_string(), self.one_length(length)?));
        let out = self.taken_out(&[station.to_string()]);
        let mut edit = Edit::default();
        // Its own run is set once, whole.
        for change in out.changes {
            let of_target = matches!(change.0.get(1), Some(EditStep::Key(name)) if name == run);
            if !of_target {
                edit.changes.push(change);
            }
        }
        self.told(edit.then(self.set_stops(run, &stops)), &Told::Moved { station, run })
    }

    fn free_name(&self, name: &str) -> Result<(), Both> {
        if name.trim().is_empty() {
            return Err(Told::NoName.both());
        }
        if self.site.dwellings.iter().any(|dwelling| dwelling.id.as_str() == name) {
            return Err(Told::NameTaken { name }.both());
        }
        Ok(())
    }

    fn add_dwelling(&self, name: &str, place: &str, run: &str, length: &str) -> Answer {
        let name = name.trim();
        self.free_name(name)?;
        let mut stops = self.stops(self.run(run)?);
        stops.push((name.to_string(), self.one_length(length)?));
        let dwelling = Edit::set(&["dwellings", name], format!("{{ place = {} }}", quoted(place)));
        self.told(dwelling.then(self.set_stops(run, &stops)), &Told::Added { element: name })
    }

    fn add_extension(&self, dwelling: &str, model: &str, length: &str) -> Answer {
        let found = self.site.dwellings.iter().find(|known| known.id.as_str() == dwelling);
        let found = found.ok_or_else(|| self.no_such(dwelling))?;
        let last = found.stations.last().map(|station| self.site.stations[*station].id.to_string());
        let last = last.ok_or_else(|| self.no_such(dwelling))?;
        let name = format!("{dwelling}:{}", found.stations.len() + 1);
        let on = |run: &&latchline_site::model::Run| self.stops(run).iter().any(|(stop, _)| *stop == last);
        let run = self.site.runs.iter().find(on).ok_or_else(|| self.no_such(&last))?;
        let mut stops = self.stops(run);
        let at = stops.iter().position(|(stop, _)| *stop == last).map_or(stops.len(), |at| at + 1);
        stops.insert(at, (name.clone(), self.one_length(length)?));
        let mut models: Vec<String> = found
            .stations
            .iter()
            .skip(1)
            .map(|station| quoted(&self.site.stations[*station].model.value))
            .collect();
        models.push(quoted(model));
        let edit = Edit::set(&["dwellings", dwelling, "extensions"], format!("[{}]", models.join(", ")));
        self.told(edit.then(self.set_stops(run.id.as_str(), &stops)), &Told::Added { element: &name })
    }

    fn remove(&self, dwelling: &str) -> Answer {
        let found = self.site.dwellings.iter().find(|known| known.id.as_str() == dwelling);
        let found = found.ok_or_else(|| self.no_such(dwelling))?;
        let names: Vec<String> =
            found.stations.iter().map(|station| self.site.stations[*station].id.to_string()).collect();
        let edit = self.taken_out(&names).then(Edit::remove(&["dwellings", dwelling]));
        self.told(edit, &Told::Removed { element: dwelling })
    }

    fn accept(&self, code: &str, element: &str, reason: &str, date: &str) -> Answer {
        if reason.trim().is_empty() {
            return Err(Told::NoName.both());
        }
        let element_line =
            if element.is_empty() { String::new() } else { format!("element = {}\n", quoted(element)) };
        let body = format!(
            "code = {}\n{element_line}reason = {}\ndate = {}\n",
            quoted(code),
            quoted(reason.trim()),
            quoted(date)
        );
        let edit = Edit::one(&["accept"], Change::AppendTable(body));
        self.told(edit, &Told::AcceptedFinding { element })
    }
}

/// A length as site files write it.
fn metres(length_m: f64) -> String {
    let text = format!("{length_m:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    quoted(&format!("{text} m"))
}
