//! Which finding of the check explains what is told of a place where its voltage does not.

use latchline_assess::Assessment;
use latchline_finding::{Code, ElementId, Finding, Severity};
use latchline_locate::SymptomKind;
use latchline_site::model::{Site, StationOwner};

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
    let is_there = |found: &&Finding| {
        found.element.as_ref().is_some_and(|element| *element == own.id || element == owner)
            && found.severity >= Severity::Warning
            && symptoms.iter().any(|symptom| shows_as(found.code, *symptom))
    };
    // Of several as grave the first in the order of the list.
    assessment.findings.iter().filter(is_there).min_by_key(|found| std::cmp::Reverse(found.severity))
}

/// Whether a finding shows as a symptom, by what its code is about (common practice, no source).
fn shows_as(code: Code, symptom: SymptomKind) -> bool {
    let code = code.as_str();
    let is_of = |kinds: &[&str]| kinds.iter().any(|kind| code.starts_with(kind));
    let anything = ["mixed-families", "bus-of-another-family", "voltage-too-high"];
    let way = ["call-across-buses", "link-not-wired", "signal-", "terminator-"];
    match symptom {
        SymptomKind::NoRelease => is_of(&["lock-", "relay-overloaded", "hold-time"]) || is_of(&anything),
        SymptomKind::NoPicture | SymptomKind::NoSpeech | SymptomKind::Ghosting | SymptomKind::Noise => {
            is_of(&way) || is_of(&anything)
        }
        SymptomKind::DoesNotRing => {
            let calls = [
                "dwelling-without-entrance",
                "entrance-calls-nobody",
                "call-buttons-too-few",
                "directory-too-small",
                "address-",
            ];
            is_of(&calls) || is_of(&way) || is_of(&anything)
        }
        SymptomKind::Dead
        | SymptomKind::NotFound
        | SymptomKind::Restarts
        | SymptomKind::Dim
        | SymptomKind::ComesAndGoes
        | SymptomKind::AfterPowerCut => is_of(&anything),
        _ => false,
    }
}
