//! `directory-too-small`

use super::limit::grade;
use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_words::missing::Missing;

rule! {
    pub static DIRECTORY_TOO_SMALL: "directory-too-small", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in &site.entrances {
        let dwellings = entrance.calls.dwellings.len();
        if dwellings == 0 {
            continue;
        }
        let station = &site.stations[entrance.station];
        let model = site.station_model(station);
        let buttons = entrance.accessories.iter().filter_map(|name| site.accessory(name).buttons.as_ref());
        let buttons: u64 = buttons.map(|buttons| u64::from(buttons.value)).sum();
        let own = match &model.directory {
            Some(directory) => u64::from(directory.value),
            None if buttons > 0 => 0,
            None => {
                report.not_judged(doc.code, entrance.id.clone(), Missing::key(&model.head.name, "directory"));
                continue;
            }
        };
        let limit = own + buttons;
        if dwellings as u64 > limit {
            let mut found = finding(doc, station.model.origin.clone())
                .about(entrance.id.clone())
                .figures(dwellings as f64, limit as f64, Unit::Count)
                .with("model", model.head.name.as_str())
                .with("buttons", latchline_finding::Figure::new(buttons as f64, Unit::Count))
                .also_at("scope", entrance.calls.origin.clone());
            if let Some(directory) = &model.directory {
                found = found.also_at("limit", directory.origin.clone()).graded(grade(
                    &model.head.name,
                    "directory",
                    directory,
                ));
            }
            report.push(found);
        }
    }
}
