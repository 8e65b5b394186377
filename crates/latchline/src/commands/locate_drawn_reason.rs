//! Which finding of the check explains what is told of a place where its voltage does not.

use latchline_assess::Assessment;
use latchline_finding::{Code, ElementId, Finding, Severity};
use latchline_locate::SymptomKind;
use latchline_site::model::{Site, StationOwner};
use std::cmp::Reverse;

/// The gravest error or warning at a station, or at the dwelling or entrance that it is of, that shows as one of these.
pub(super) fn reason<'a>(
    assessment: &'a Assessment,
    site: &Site,
    station: usize,
    symptoms: &[SymptomKind],
) -> Option<&'a Finding> {
    let own = &site.stations[station];
    let owner: &ElementId = match own.owner {
        StationOwner::Dwelling { dwelling, .. } => &site.dwellings[dwelling].id,
        StationOwner::Entrance(entrance) => &site.entrances[entrance].id,
        StationOwner::Management(_) => &own.id,
    };
    // What a supply does when power returns shows at all that hang on it.
    let source = assessment.devices.iter().find(|device| device.id == own.id).map(|device| &device.source);
    let is_there = |found: &&Finding| {
        let at = |place: &ElementId| found.element.as_ref() == Some(place);
        at(&own.id) || at(owner) || found.code.as_str().starts_with("start-up-") && source.is_some_and(at)
    };
    let there =
        assessment.findings.iter().filter(is_there).filter(|found| found.severity >= Severity::Warning);
    let shown = there.filter_map(|found| {
        let near = symptoms.iter().filter_map(|symptom| shows_as(found.code, *symptom)).min()?;
        Some((near, Reverse(found.severity), found))
    });
    // What is nearest to the symptom, of several the gravest, of several as grave the first in the order of the list.
    shown.min_by_key(|(near, severity, _)| (*near, *severity)).map(|(_, _, found)| found)
}

/// How near a finding is to a symptom, the nearest 0, by what its code is about (common practice, no source); `None` where it does not show so.
fn shows_as(code: Code, symptom: SymptomKind) -> Option<usize> {
    let code = code.as_str();
    let nearest =
        |groups: &[&[&str]]| groups.iter().position(|kinds| kinds.iter().any(|kind| code.starts_with(kind)));
    let anything = ["mixed-families", "bus-of-another-family", "voltage-too-high"];
    let way = ["call-across-buses", "link-not-wired", "signal-", "terminator-"];
    match symptom {
        SymptomKind::NoRelease => nearest(&[&["lock-", "relay-overloaded"], &["hold-time"], &anything]),
        SymptomKind::NoPicture | SymptomKind::NoSpeech | SymptomKind::Ghosting | SymptomKind::Noise => {
            nearest(&[&way, &anything])
        }
        SymptomKind::DoesNotRing => {
            let calls = [
                "dwelling-without-entrance",
                "entrance-calls-nobody",
                "call-buttons-too-few",
                "directory-too-small",
                "address-",
            ];
            nearest(&[&calls, &way, &anything])
        }
        SymptomKind::AfterPowerCut => {
            let start = ["start-up-dip", "start-up-hiccups", "start-up-fails", "start-up-dropouts"];
            nearest(&[&start[..1], &start, &anything])
        }
        SymptomKind::Dead
        | SymptomKind::NotFound
        | SymptomKind::Restarts
        | SymptomKind::Dim
        | SymptomKind::ComesAndGoes => nearest(&[&anything]),
        _ => None,
    }
}
