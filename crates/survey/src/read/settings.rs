//! The sheets of settings and of own prices.

use super::{Names, Reader, names};
use crate::fields::{Form, Row};
use crate::model::{Settings, Wiring};
use crate::problem::{Problem, ProblemKind};
use crate::sheets::{SETTINGS, meant, nearest, plain};
use latchline_finding::{Money, Provenance, Sourced};
use latchline_site::catalogue::{Media, OwnPrice, OwnPrices};
use latchline_site::model::{
    COLDEST_CONDUCTOR_C, HOTTEST_CONDUCTOR_C, USUAL_CONDUCTOR_C, USUAL_END_ALLOWANCE_M,
    USUAL_LABOUR_PER_HOUR, USUAL_LENGTH_TOLERANCE, USUAL_SLACK,
};
use latchline_words::reading::Thing;
use std::collections::BTreeMap;

impl Reader<'_> {
    pub(super) fn settings(&mut self, form: Option<&Form<'_>>) -> Settings {
        let mut settings = Settings {
            title: String::from("Untitled site"),
            country: None,
            family: None,
            catalogues: Vec::new(),
            media: Media::Video,
            indoor_station: None,
            door_station: None,
            labour_per_hour: Money::from_units(USUAL_LABOUR_PER_HOUR),
            slack: USUAL_SLACK,
            termination_m: USUAL_END_ALLOWANCE_M,
            hottest_c: Sourced::assumed(HOTTEST_CONDUCTOR_C),
            coldest_c: Sourced::assumed(COLDEST_CONDUCTOR_C),
            usual_c: Sourced::assumed(USUAL_CONDUCTOR_C),
            length_tolerance: Sourced::assumed(USUAL_LENGTH_TOLERANCE),
            wiring: Sourced::assumed(Wiring::Chains),
            largest_group: None,
            spare_ports: None,
            growth: 0,
            standby_hours: None,
            thin_margin_v: None,
            least_margin_v: None,
            no_warnings: None,
            one_cable_type: None,
            boxes_in_dwellings: None,
            surge_protection_ohm: None,
            cables: Vec::new(),
            withdrawn: Vec::new(),
        };
        let Some(form) = form else { return settings };
        let no_others: &[&str] = &[];
        let known = SETTINGS.iter().enumerate().map(|(index, (name, ..))| (index, *name, no_others));
        let mut first_rows: BTreeMap<usize, u32> = BTreeMap::new();
        for row in form.rows() {
            let Some(name) = row.need("Setting", self.problems) else { continue };
            let Some(index) = meant(&name.value, known.clone()) else {
                let nearest = nearest(&name.value, SETTINGS.iter().map(|(name, ..)| *name));
                row.wrong(
                    "Setting",
                    ProblemKind::UnknownSetting { name: name.value, nearest },
                    self.problems,
                );
                continue;
            };
            match first_rows.get(&index) {
                Some(first_row) => {
                    let (name, first_row) = (SETTINGS[index].0.to_string(), *first_row);
                    row.wrong("Setting", ProblemKind::NameTwice { name, first_row }, self.problems);
                }
                None => {
                    first_rows.insert(index, row.number);
                    self.setting(SETTINGS[index].0, SETTINGS[index].1, &row, &mut settings);
                }
            }
        }
        settings
    }

    pub(super) fn setting(
        &mut self,
        name: &str,
        choices: &[&str],
        row: &Row<'_, '_>,
        settings: &mut Settings,
    ) {
        let Some(text) = row.text("Value", self.problems) else { return };
        let at = |value: f64| Sourced::new(value, text.origin.clone(), Provenance::Stated);
        let mut number = |least: f64, most: f64, unit: &'static str| {
            let value = row.number("Value", least, most, unit, self.problems)?.value;
            if unit == "%" && value > 0.0 && value < 1.0 {
                row.wrong("Value", ProblemKind::PercentageBelowOne(value), self.problems);
            }
            Some(value)
        };
        let whole = |value: f64| value.round() as u32;
        let flag = |problems: &mut Vec<Problem>| {
            let is_so = row.flag("Value", problems)?;
            Some(Sourced::new(is_so, text.origin.clone(), Provenance::Stated))
        };
        match name {
            "Title" => settings.title = text.value,
            "Country" => settings.country = Some(text.value.to_uppercase()),
            "Family" => settings.family = Some(text),
            "Catalogues" => settings.catalogues = names(&text),
            "Indoor station" => settings.indoor_station = Some(text),
            "Door station" => settings.door_station = Some(text),
            "Labour per hour" => {
                if let Some(value) = number(0.0, 10_000.0, "") {
                    settings.labour_per_hour = Money::from_units(value);
                }
            }
            "Slack" => {
                if let Some(value) = number(0.0, 100.0, "%") {
                    settings.slack = value / 100.0;
                }
            }
            "Termination" => {
                if let Some(value) = number(0.0, 10.0, "m") {
                    settings.termination_m = value;
                }
            }
            "Hottest temperature" => {
                if let Some(value) = number(-60.0, 150.0, "°C") {
                    settings.hottest_c = at(value);
                }
            }
            "Coldest temperature" => {
                if let Some(value) = number(-60.0, 150.0, "°C") {
                    settings.coldest_c = at(value);
                }
            }
            "Usual temperature" => {
                if let Some(value) = number(-60.0, 150.0, "°C") {
                    settings.usual_c = at(value);
                }
            }
            "Length tolerance" => {
                if let Some(value) = number(0.0, 90.0, "%") {
                    settings.length_tolerance = at(value / 100.0);
                }
            }
            "Largest silenced group" => {
                settings.largest_group = number(1.0, 10_000.0, "").map(|value| at(value).map(whole));
            }
            "Spare ports" => {
                settings.spare_ports = number(0.0, 1_000.0, "").map(|value| at(value).map(whole));
            }
            "Growth" => settings.growth = number(0.0, 1_000.0, "").map_or(0, whole),
            // Of 0 hours nobody asks for a battery.
            "Standby hours" => {
                settings.standby_hours = number(0.0, 1_000.0, "h").filter(|hours| *hours > 0.0).map(at);
            }
            "Thin margin" => settings.thin_margin_v = number(0.0, 10.0, "V"),
            "Least margin" => settings.least_margin_v = number(0.0, 10.0, "V").map(at),
            "No warnings" => settings.no_warnings = flag(self.problems),
            "One cable type" => settings.one_cable_type = flag(self.problems),
            "Boxes in dwellings" => settings.boxes_in_dwellings = flag(self.problems),
            "Surge protection" => settings.surge_protection_ohm = number(0.0, 1_000.0, "ohm"),
            "Cables" => settings.cables = names(&text),
            "Withdrawn parts" => settings.withdrawn = names(&text),
            _ => {
                let wanted = plain(&text.value);
                if !choices.contains(&wanted.as_str()) {
                    let kind = ProblemKind::UnknownName {
                        kind: Thing::Choice,
                        name: text.value,
                        nearest: choices.iter().map(|word| (*word).to_string()).collect(),
                    };
                    row.wrong("Value", kind, self.problems);
                } else if name == "Media" {
                    settings.media = if wanted == "audio" { Media::Audio } else { Media::Video };
                } else {
                    let wiring = match wanted.as_str() {
                        "stars" => Wiring::Stars,
                        "corridors" => Wiring::Corridors,
                        _ => Wiring::Chains,
                    };
                    settings.wiring = Sourced::new(wiring, text.origin, Provenance::Stated);
                }
            }
        }
    }

    pub(super) fn prices(&mut self, form: Option<&Form<'_>>) -> OwnPrices {
        let mut names = Names::new();
        let mut prices = OwnPrices::new();
        for row in form.iter().flat_map(|form| form.rows()) {
            let price = row.number("Price", 0.0, 1e6, "", self.problems);
            let labour_minutes = row.number("Minutes", 0.0, 1e6, "", self.problems);
            let Some(part) = row.need("Part", self.problems) else { continue };
            if let Some((_, first_row)) = names.get(&part.value) {
                let kind = ProblemKind::NameTwice { name: part.value, first_row: *first_row };
                row.wrong("Part", kind, self.problems);
                continue;
            }
            names.insert(part.value.clone(), (0, row.number));
            let price = price.map(|price| price.map(Money::from_units));
            prices.insert(part.value, OwnPrice { origin: part.origin, price, labour_minutes });
        }
        prices
    }
}
