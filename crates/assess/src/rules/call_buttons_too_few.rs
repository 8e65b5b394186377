//! `call-buttons-too-few`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Unit};
use latchline_site::catalogue::AccessoryKind;

rule! {
    pub static CALL_BUTTONS_TOO_FEW: "call-buttons-too-few", Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let site = context.site;
    for entrance in &site.entrances {
        let modules = || entrance.accessories.iter().map(|name| site.accessory(name));
        let buttons: u64 = modules().filter_map(|one| Some(u64::from(one.buttons.as_ref()?.value))).sum();
        // A number can be keyed in, or a name looked up.
        let dials =
            modules().any(|one| matches!(one.kind.value, AccessoryKind::Keypad | AccessoryKind::Names));
        let station = &site.stations[entrance.station];
        let model = site.station_model(station);
        let (dwellings, directory) = (entrance.calls.dwellings.len() as u64, model.directory.as_ref());
        // Beyond what the directory and the buttons hold together it is `directory-too-small`.
        let fits = directory.is_some_and(|own| dwellings <= u64::from(own.value) + buttons);
        if buttons > 0 && dwellings > buttons && !dials && fits {
            let found = finding(doc, entrance.accessories[0].origin.clone())
                .about(entrance.id.clone())
                .figures(buttons as f64, dwellings as f64, Unit::Count)
                .with("model", model.head.name.as_str())
                .also_at("scope", entrance.calls.origin.clone());
            report.push(found);
        }
    }
}
