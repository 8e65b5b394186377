//! Operating states and calls in words.

use crate::row::sentences;
use crate::template::plain;
use latchline_finding::{CallMoment, CallRef, Language, OperatingState, StateKind};

sentences! {
    /// A state in a few words, for a table.
    pub enum FewWords {
        StandbyDay: "standby day" | "Ruhe bei Tag",
        StandbyNight: "standby night" | "Ruhe bei Nacht",
        Call: "a call" | "ein Ruf",
        Calls { calls: usize }: "{calls:call|calls}" | "{calls:Ruf|Rufe}",
        Viewing: "viewing" | "Ansehen",
        Views { views: usize }: "{views:view|views}" | "{views}-mal Ansehen",
        AllCall: "all-call" | "Sammelruf",
        PowerReturn: "power return" | "Netzwiederkehr",
        FireRelease: "fire release" | "Freigabe im Brandfall",
        BatteryEnd: "battery" | "Batterie",
        LightLoad: "light load" | "kleinste Last",
    }
}

sentences! {
    /// A state as a part of a sentence: when something happens.
    pub enum When {
        StandbyDay: "in standby by day" | "in Ruhe bei Tag",
        StandbyNight: "in standby by night" | "in Ruhe bei Nacht",
        Call: "during a call" | "während eines Rufs",
        OneCall: "with one call" | "bei einem Ruf",
        Calls { calls: usize }: "with {calls:call|calls} at once" | "bei {calls:gleichzeitigen Ruf|gleichzeitigen Rufen}",
        OneView: "with one self-started view" | "während ein Bewohner auf eine Kamera sieht",
        Views: "while residents view" | "während Bewohner auf Kameras sehen",
        AllCall: "during an all-call" | "beim Sammelruf",
        PowerReturn: "when power returns" | "bei Netzwiederkehr",
        FireRelease: "on fire release" | "bei Freigabe im Brandfall",
        BatteryEnd: "at the battery's end voltage" | "bei Endspannung der Batterie",
        LightLoad:
            "with least load and highest supply voltage"
            | "bei kleinster Last und höchster Netzteilspannung",
    }
}

sentences! {
    /// A state as the name of what is calculated or measured.
    pub enum StateName {
        StandbyDay: "standby by day" | "Ruhe bei Tag",
        StandbyNight: "standby by night" | "Ruhe bei Nacht",
        Call: "call" | "Ruf",
        Calls { calls: usize }: "calls at once: {calls}" | "gleichzeitige Rufe: {calls}",
        SelfView: "residents view a camera" | "Bewohner sehen auf eine Kamera",
        AllCall: "all-call" | "Sammelruf",
        PowerReturn: "power return" | "Netzwiederkehr",
        FireRelease: "fire release" | "Freigabe im Brandfall",
        BatteryEnd: "at the battery's end voltage" | "bei Entladeschlussspannung der Batterie",
        LightLoad: "least load, highest supply voltage" | "kleinste Last, höchste Netzteilspannung",
    }
}

sentences! {
    /// One call that stands.
    pub enum CallWords<'a> {
        Ringing { from: &'a str, to: &'a str }: "{from} rings {to}" | "{from} ruft {to}",
        Talking { from: &'a str, to: &'a str }: "{from} talks with {to}" | "{from} spricht mit {to}",
        Releasing { from: &'a str, to: &'a str }:
            "{from} talks with {to}, lock released"
            | "{from} spricht mit {to}, Schloss freigegeben",
        Viewing { from: &'a str, to: &'a str }: "{to} views {from}" | "{to} sieht auf {from}",
        ReleasedByHand { from: &'a str }:
            "{from} released by hand" | "{from} von Hand freigegeben",
    }
}

sentences! {
    /// A state with the calls that stand in it, and none besides.
    pub enum Exactly<'a> {
        Named { when: &'a str, calls: &'a str }: "{when} ({calls})" | same,
        Calls { when: &'a str, calls: &'a str }:
            "{when} ({calls}) and nothing else"
            | "{when} ({calls}) und sonst nichts",
    }
}

sentences! {
    /// A state in which doors are released outside of calls.
    pub enum WithReleases<'a> {
        FewWords { state: &'a str, releases: usize }: "{state}, {releases} released" | "{state}, {releases} freigegeben",
        InWords { state: &'a str, releases: usize }:
            "{state} and {releases:door|doors} released by hand"
            | "{state} und {releases:von Hand freigegebener Tür|von Hand freigegebenen Türen}",
    }
}

/// A few words for a table: "2 calls", "power return".
pub fn few_words(state: &OperatingState, language: Language) -> String {
    let (calls, releases) = state.calls_and_releases();
    let words = match state.kind {
        StateKind::Call if calls == 0 => FewWords::Call,
        StateKind::Call => FewWords::Calls { calls },
        StateKind::SelfView if calls > 0 => FewWords::Views { views: calls },
        StateKind::SelfView => FewWords::Viewing,
        StateKind::StandbyDay => FewWords::StandbyDay,
        StateKind::StandbyNight => FewWords::StandbyNight,
        StateKind::AllCall => FewWords::AllCall,
        StateKind::PowerReturn => FewWords::PowerReturn,
        StateKind::FireRelease => FewWords::FireRelease,
        StateKind::BatteryEnd => FewWords::BatteryEnd,
        StateKind::LightLoad => FewWords::LightLoad,
    };
    let words = words.say(language);
    if releases == 0 { words } else { WithReleases::FewWords { state: &words, releases }.say(language) }
}

/// Words for a sentence: "with 2 calls at once", "in standby by night".
pub fn in_words(state: &OperatingState, language: Language) -> String {
    let (calls, releases) = state.calls_and_releases();
    let words = match (state.kind, calls) {
        (StateKind::StandbyDay, _) => When::StandbyDay,
        (StateKind::StandbyNight, _) => When::StandbyNight,
        (StateKind::Call, 0) => When::Call,
        (StateKind::Call, 1) => When::OneCall,
        (StateKind::Call, calls) => When::Calls { calls },
        (StateKind::SelfView, 1) => When::OneView,
        (StateKind::SelfView, _) => When::Views,
        (StateKind::AllCall, _) => When::AllCall,
        (StateKind::PowerReturn, _) => When::PowerReturn,
        (StateKind::FireRelease, _) => When::FireRelease,
        (StateKind::BatteryEnd, _) => When::BatteryEnd,
        (StateKind::LightLoad, _) => When::LightLoad,
    };
    with_releases(words.say(language), releases, language)
}

fn with_releases(state: String, releases: usize, language: Language) -> String {
    if releases == 0 { state } else { WithReleases::InWords { state: &state, releases }.say(language) }
}

/// The name of a state on a sheet: "standby by day", "calls at once: 2".
pub fn name(state: &OperatingState, language: Language) -> String {
    let (calls, releases) = state.calls_and_releases();
    let words = match state.kind {
        StateKind::Call if calls > 1 => StateName::Calls { calls },
        StateKind::Call => StateName::Call,
        StateKind::StandbyDay => StateName::StandbyDay,
        StateKind::StandbyNight => StateName::StandbyNight,
        StateKind::SelfView => StateName::SelfView,
        StateKind::AllCall => StateName::AllCall,
        StateKind::PowerReturn => StateName::PowerReturn,
        StateKind::FireRelease => StateName::FireRelease,
        StateKind::BatteryEnd => StateName::BatteryEnd,
        StateKind::LightLoad => StateName::LightLoad,
    };
    with_releases(words.say(language), releases, language)
}

/// One call of a state: "front-A rings A-401".
pub fn call(call: &CallRef, language: Language) -> String {
    let (from, to) = (&*plain(call.from.as_str()), &*plain(call.to.as_str()));
    let words = match call.moment {
        CallMoment::Ringing => CallWords::Ringing { from, to },
        CallMoment::Talking => CallWords::Talking { from, to },
        CallMoment::Releasing => CallWords::Releasing { from, to },
        CallMoment::Viewing => CallWords::Viewing { from, to },
        CallMoment::ReleasedByHand => CallWords::ReleasedByHand { from },
    };
    words.say(language)
}

/// The calls that stand in a state: "front-A rings A-401; gate talks with A-402, lock released".
pub fn calls_in_words(state: &OperatingState, language: Language) -> Option<String> {
    let phrases: Vec<String> = state.calls.iter().map(|one| call(one, language)).collect();
    (!phrases.is_empty()).then(|| phrases.join("; "))
}

/// When, with the calls by name: "with 2 calls at once (gate rings A-401; lodge rings A-402)", "in standby by night".
pub fn with_calls(state: &OperatingState, language: Language) -> String {
    let when = in_words(state, language);
    match calls_in_words(state, language) {
        Some(calls) => Exactly::Named { when: &when, calls: &calls }.say(language),
        None => when,
    }
}

/// When exactly, as a state is put for a reading: "with one call (front-A rings A-401) and nothing else", "in standby by day".
pub fn exactly(state: &OperatingState, language: Language) -> String {
    let when = in_words(state, language);
    match calls_in_words(state, language) {
        Some(calls) => Exactly::Calls { when: &when, calls: &calls }.say(language),
        None => when,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_state_has_words_of_every_kind() {
        for language in [Language::English, Language::German] {
            for kind in StateKind::ALL {
                assert!(!few_words(&kind.into(), language).is_empty());
                assert!(!name(&kind.into(), language).is_empty());
                assert!(in_words(&kind.into(), language).contains(' '));
            }
        }
    }

    #[test]
    fn calls_are_named() {
        let call = |to: &str, moment| CallRef { from: "gate".into(), to: to.into(), moment };
        let state = OperatingState {
            kind: StateKind::Call,
            calls: vec![call("A-1", CallMoment::Ringing), call("A-2", CallMoment::Releasing)],
        };
        assert_eq!(few_words(&state, Language::English), "2 calls");
        assert_eq!(in_words(&state, Language::English), "with 2 calls at once");
        assert_eq!(in_words(&state, Language::German), "bei 2 gleichzeitigen Rufen");
        assert_eq!(
            calls_in_words(&state, Language::English).as_deref(),
            Some("gate rings A-1; gate talks with A-2, lock released")
        );
        let one = OperatingState { kind: StateKind::Call, calls: vec![call("A-1", CallMoment::Ringing)] };
        assert_eq!(exactly(&one, Language::English), "with one call (gate rings A-1) and nothing else");
        assert_eq!(exactly(&one, Language::German), "bei einem Ruf (gate ruft A-1) und sonst nichts");
        assert_eq!(exactly(&StateKind::StandbyDay.into(), Language::English), "in standby by day");
        assert_eq!(with_calls(&one, Language::English), "with one call (gate rings A-1)");
    }
}
