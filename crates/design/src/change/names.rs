//! One name for one thing: a survey makes one word of "Flat 1", a site file may have it with its space.

use latchline_finding::Sourced;
use latchline_site::model::Site;
use latchline_survey::{Survey, site_name};
use std::collections::BTreeMap;

/// The survey with the names that dwellings, entrances and desks have in the installed site, where they differ in their spaces alone.
pub fn as_installed(survey: &Survey, site: &Site) -> Survey {
    let installed: BTreeMap<String, &str> = (site.dwellings.iter().map(|dwelling| &dwelling.id))
        .chain(site.entrances.iter().map(|entrance| &entrance.id))
        .chain(site.management.iter().map(|desk| &desk.id))
        .map(|id| id.as_str())
        .filter(|name| name.contains(char::is_whitespace))
        .map(|name| (site_name(name), name))
        .collect();
    let mut survey = survey.clone();
    if installed.is_empty() {
        return survey;
    }
    let text = |name: &mut String| {
        // "Flat-1:2" is a further station of Flat-1.
        let (own, further) = name.split_at(name.find(':').unwrap_or(name.len()));
        if let Some(installed) = installed.get(own) {
            *name = format!("{installed}{further}");
        }
    };
    let sourced = |name: &mut Sourced<String>| text(&mut name.value);
    survey.dwellings.iter_mut().for_each(|dwelling| sourced(&mut dwelling.name));
    survey.desks.iter_mut().for_each(|desk| {
        sourced(&mut desk.name);
        desk.calls.iter_mut().for_each(text);
    });
    survey.entrances.iter_mut().for_each(|entrance| {
        sourced(&mut entrance.name);
        entrance.calls.iter_mut().for_each(text);
    });
    survey.existing.iter_mut().for_each(|cable| {
        sourced(&mut cable.from);
        sourced(&mut cable.to);
    });
    survey
}
