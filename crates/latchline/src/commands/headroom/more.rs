//! `latchline headroom --more`: whether so many more dwellings work here.

use super::words::errors_of;
use crate::commands::part_named::known;
use crate::refusal::Result;
use latchline_assess::{Assessment, Verdict};
use latchline_finding::Language;
use latchline_reach::MoreHere;
use latchline_report::Look;
use latchline_report::table::paragraph;
use latchline_report::text::releases_said;
use latchline_session::View;
use latchline_site::catalogue::StationKind;
use latchline_site::model::Site;
use latchline_words::codes::title_of;
use latchline_words::commands::HeadroomWords;
use latchline_words::refusals::{PartKind, PartRefusal, SiteRefusal};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// The model that most dwellings have, of several the first by name; `None` where there is none.
pub(super) fn usual_model(site: &Site) -> Option<&str> {
    let mut models: BTreeMap<&str, usize> = BTreeMap::new();
    for station in site.dwellings.iter().flat_map(|dwelling| &dwelling.stations) {
        *models.entry(site.stations[*station].model.value.as_str()).or_default() += 1;
    }
    let (model, _) = models.into_iter().max_by_key(|(name, count)| (*count, std::cmp::Reverse(*name)))?;
    Some(model)
}

/// What is answered: the sentences, the one to say first, and the figures.
pub(super) struct More {
    lines: Vec<String>,
    found: MoreHere,
    errors_today: usize,
    not_judged: Vec<&'static str>,
}

impl More {
    /// Whether so many more work.
    pub fn works(&self) -> bool {
        self.found.works()
    }

    /// For people.
    pub fn text(&self, look: &Look) -> String {
        self.lines.iter().map(|line| paragraph(line, 0, look.width)).collect()
    }

    /// For programs.
    pub fn json(&self) -> Result<String> {
        let found = &self.found;
        let added =
            found.added.iter().map(|(at, stations)| Added { at: at.to_string(), stations: *stations });
        Ok(latchline_report::json::text(&Document {
            format_version: 1,
            latchline_version: env!("CARGO_PKG_VERSION"),
            works: self.works(),
            says: &self.lines,
            model: &found.model,
            wanted: found.wanted,
            more: found.count(),
            added: added.collect(),
            supplies: found.supplies.iter().map(ToString::to_string).collect(),
            limit: found.limit,
            new_warnings: found.warnings.clone(),
            not_judged: &self.not_judged,
            errors_today: self.errors_today,
        })?)
    }
}

#[derive(Serialize)]
struct Document<'a> {
    format_version: u32,
    latchline_version: &'static str,
    works: bool,
    says: &'a [String],
    model: &'a str,
    wanted: usize,
    /// How many of them work.
    more: usize,
    added: Vec<Added>,
    supplies: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<&'static str>,
    new_warnings: Vec<&'static str>,
    /// Codes of what could not be judged on the site.
    not_judged: &'a [&'static str],
    /// Errors that the site has as it is. While one stands nothing can be added; where all are accepted, more tells what brings no
    /// further one.
    errors_today: usize,
}

#[derive(Serialize)]
struct Added {
    at: String,
    stations: usize,
}

/// Refuses a station of another family than the site's.
fn of_the_site(site: &Site, station: &str) -> Result<()> {
    let other = site.catalogue.stations.get(station).map(|model| &model.family.value);
    if let Some(other) = other.filter(|other| **other != site.family.value) {
        let (part, its, family) = (station, other.as_str(), site.family.value.as_str());
        return Err(PartRefusal::OtherFamilyThanSite { part, its, family }.into());
    }
    Ok(())
}

/// The codes that are not judged on a site.
fn codes_not_judged(assessment: &Assessment) -> Vec<&'static str> {
    let codes: BTreeSet<&'static str> =
        assessment.not_judged.iter().map(|entry| entry.code.as_str()).collect();
    codes.into_iter().collect()
}

/// What is not judged on a site, as it is and with more, in words; `None` where all is.
pub(super) fn not_judged(assessment: &Assessment, language: Language) -> Option<String> {
    let codes = codes_not_judged(assessment);
    (!codes.is_empty()).then(|| HeadroomWords::MoreNotJudged { codes: &codes.join(", ") }.say(language))
}

/// Adds them and says what came of it.
pub(super) fn answer(
    view: &View,
    site: &Site,
    site_file: &Path,
    assessment: &Assessment,
    wanted: usize,
    station: Option<&str>,
    look: &Look,
) -> Result<More> {
    let indoor = site.catalogue.stations.iter().filter(|(_, model)| {
        model.kind.value == StationKind::Indoor && model.family.value == site.family.value
    });
    if let Some(station) = station {
        of_the_site(site, station)?;
        known(&site.catalogue, PartKind::IndoorStation, station, indoor.map(|(name, _)| name))?;
    }
    let Some(model) = station.or_else(|| usual_model(site)) else {
        return Err(SiteRefusal::NoDwelling.into());
    };
    let found = view.more_here(model, wanted)?.unwrap_or_default();
    let say = |words: HeadroomWords<'_>| words.say(look.language);
    let placed = |(at, count): &(latchline_finding::ElementId, usize)| {
        say(HeadroomWords::Placed { count: *count, at: at.as_str() })
    };
    let places = found.added.iter().map(placed).collect::<Vec<_>>().join(" + ");
    let of_supply = |id: &latchline_finding::ElementId| {
        let supply = site.supplies.iter().find(|supply| supply.id == *id)?;
        let (supply, model) = (supply.id.as_str(), site.supply_model(supply));
        let name = &*model.head.name;
        Some(match model.battery.is_some() {
            true => say(HeadroomWords::OnMainsAndBattery { supply, model: name }),
            false => say(HeadroomWords::OnMains { supply, model: name }),
        })
    };
    let supplies = found.supplies.iter().filter_map(of_supply).collect::<Vec<_>>().join(", ");
    let fails = assessment.verdict == Verdict::Fails;
    let (errors_today, titles) = errors_of(assessment, look);
    let calls = site.family().simultaneous_calls.value as usize;
    let (count, limit) = (wanted, found.limit.map(|code| title_of(code, look.language)));
    let check = super::words::check_of(site_file);
    let first = match (fails, found.works()) {
        (true, _) => HeadroomWords::MoreFailsToday { errors: errors_today, titles: &titles, command: &check },
        (false, true) => HeadroomWords::MoreYes { count, model, places: &places, supplies: &supplies, calls },
        (false, false) => HeadroomWords::MoreNo {
            count,
            model,
            title: limit.as_deref(),
            most: found.count(),
            places: Some(&*places).filter(|places| !places.is_empty()),
        },
    };
    let mut lines = vec![say(first)];
    if fails {
        lines.push(say(HeadroomWords::MoreCaution));
        return Ok(More { lines, found, errors_today, not_judged: Vec::new() });
    }
    if errors_today > 0 {
        lines.push(say(HeadroomWords::FailsAsAccepted { errors: errors_today, titles: &titles }));
    }
    let titles: Vec<String> = found.warnings.iter().map(|code| title_of(code, look.language)).collect();
    if !titles.is_empty() {
        lines.push(say(HeadroomWords::MoreWarns {
            count: found.count(),
            supply: None,
            titles: &titles.join("; "),
        }));
    }
    let not_judged = codes_not_judged(assessment);
    lines.extend(self::not_judged(assessment, look.language));
    lines.push(say(HeadroomWords::MoreAdded));
    lines.extend(releases_said(assessment, look.language));
    if station.is_none() {
        lines.push(say(HeadroomWords::MoreWhichModel { model }));
    }
    lines.push(say(HeadroomWords::MoreCaution));
    Ok(More { lines, found, errors_today, not_judged })
}
