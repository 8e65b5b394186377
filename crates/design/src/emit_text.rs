//! The text of a site file whose runs are laid out.

use crate::emit::{RunLine, Writer};
use crate::item::Owner;
use crate::toml_text::{array, entrance_keys, joined, key, one_line, place_key, place_key_in, quoted, tidy};
use latchline_finding::Provenance;
use latchline_site::model::USUAL_THIN_MARGIN_V;
use latchline_survey::model::Wiring;
use latchline_words::design::FileComment;
use std::fmt::Write as _;

impl Writer<'_, '_> {
    /// The whole file; `notes` are the lines of comment at its head.
    pub(crate) fn text(&self, notes: &[String]) -> String {
        let survey = self.survey;
        let settings = &survey.settings;
        let mut out = String::new();
        let mut line = |text: String| {
            out.push_str(&text);
            out.push('\n');
        };
        let title = &one_line(&settings.title);
        line(format!("# {}", self.comment(&FileComment::MadeOf { title })));
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
            let names: Vec<String> = settings.catalogues.iter().map(|path| path.value.clone()).collect();
            line(format!("catalogues = {}", array(&names)));
        }
        line(String::new());
        line(String::from("[conditions]"));
        // What the survey does not state is not stated here either: whatever rests on it says so.
        let conditions = [
            ("usual_temperature", &settings.usual_c, 1.0, "°C"),
            ("hottest_temperature", &settings.hottest_c, 1.0, "°C"),
            ("coldest_temperature", &settings.coldest_c, 1.0, "°C"),
            ("length_tolerance", &settings.length_tolerance, 100.0, "%"),
        ];
        for (key, stated, times, unit) in conditions {
            if stated.provenance != Provenance::Assumed {
                line(format!("{key} = \"{} {unit}\"", tidy(stated.value * times)));
            }
        }
        // What is made off at each end is in the lengths: the cut list must not count it again.
        line(String::from("end_allowance = \"0 m\""));
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
        if !self.branch_boxes.is_empty() {
            line(String::from("\n[branch-boxes]"));
        }
        self.branch_boxes.iter().for_each(|branch| line(branch.clone()));
        let items = &self.instance.items;
        let entrances = items.iter().filter_map(|item| match item.owner {
            Owner::Entrance(index) => Some((item, index)),
            _ => None,
        });
        if entrances.clone().next().is_some() {
            line(format!("\n# {}", self.comment(&FileComment::Entrances)));
        }
        for (item, index) in entrances {
            let entrance = &survey.entrances[index];
            line(String::new());
            line(format!("[entrances.{}]", key(&entrance.name.value)));
            entrance_keys(survey, entrance, &item.models[0]).into_iter().for_each(&mut line);
        }
        if self.instance.has_desk() {
            line(String::from("\n[management]"));
        }
        for item in items {
            let Owner::Desk(index) = item.owner else { continue };
            let desk = &survey.desks[index];
            let keys = [
                Some(format!("model = {}", quoted(&item.models[0]))),
                place_key(self.survey, desk.place),
                (!desk.calls.is_empty()).then(|| format!("calls = {}", array(&desk.calls))),
            ];
            line(format!("{} = {{ {} }}", key(&item.name), joined(keys)));
        }
        line(format!("\n# {}\n\n[dwellings]", self.comment(&FileComment::Dwellings)));
        for item in items {
            let Owner::Dwelling(index) = item.owner else { continue };
            let dwelling = &survey.dwellings[index];
            let main = &item.models[0];
            let keys = [
                place_key_in(
                    self.survey,
                    dwelling.place,
                    dwelling.numbered_in.or(survey.places[dwelling.place].building),
                ),
                (*main != self.instance.default_indoor).then(|| format!("station = {}", quoted(main))),
                (item.models.len() > 1).then(|| format!("extensions = {}", array(&item.models[1..]))),
                dwelling.label.as_ref().map(|label| format!("label = {}", quoted(label))),
            ];
            line(format!("{} = {{ {} }}", key(&item.name), joined(keys)));
        }
        line(format!("\n# {}\n\n[runs]", self.comment(&FileComment::Runs)));
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
        // What every station must have is what check warns below, so that a later change that falls short is told.
        let least_v = settings.least_margin_v.as_ref().map(|margin| margin.value);
        let thin_v = match (settings.thin_margin_v, least_v) {
            (Some(thin_v), Some(least_v)) => Some(thin_v.max(least_v)),
            (None, Some(least_v)) => Some(least_v).filter(|least_v| *least_v > USUAL_THIN_MARGIN_V),
            (thin_v, None) => thin_v,
        };
        if let Some(thin_v) = thin_v {
            let _ = writeln!(text, "thin_margin = \"{} V\"", tidy(thin_v));
        }
        if let Some(group) = &settings.largest_group {
            let _ = writeln!(text, "largest_silenced_group = {}", group.value);
        }
        if settings.wiring.value != Wiring::Chains {
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
}
