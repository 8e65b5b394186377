//! Operating states in words.

use latchline_finding::{CallMoment, CallRef, OperatingState, StateKind};

/// A few words for a table: "2 calls", "power return".
pub fn few_words(state: &OperatingState) -> String {
    let calls = state.calls.len();
    match state.kind {
        StateKind::Call if calls == 0 => String::from("a call"),
        StateKind::Call => format!("{calls} call{}", plural(calls)),
        StateKind::SelfView if calls > 0 => format!("{calls} view{}", plural(calls)),
        kind => String::from(kind_words(kind)),
    }
}

/// Words for a sentence: "with 2 calls at once", "in standby by night".
pub fn in_words(state: &OperatingState) -> String {
    String::from(match (state.kind, state.calls.len()) {
        (StateKind::StandbyDay, _) => "in standby by day",
        (StateKind::StandbyNight, _) => "in standby by night",
        (StateKind::Call, 0) => "during a call",
        (StateKind::Call, 1) => "with one call",
        (StateKind::Call, calls) => return format!("with {calls} calls at once"),
        (StateKind::SelfView, 1) => "with one self-started view",
        (StateKind::SelfView, _) => "while residents view",
        (StateKind::AllCall, _) => "during an all-call",
        (StateKind::PowerReturn, _) => "when power returns",
        (StateKind::FireRelease, _) => "on fire release",
        (StateKind::BatteryEnd, _) => "at the battery's end voltage",
        (StateKind::LightLoad, _) => "with least load and highest supply voltage",
    })
}

/// The calls that stand in a state: "front-A rings A-401; gate talks with A-402, lock released".
pub fn calls_in_words(state: &OperatingState) -> Option<String> {
    let phrases: Vec<String> = state.calls.iter().map(call_words).collect();
    (!phrases.is_empty()).then(|| phrases.join("; "))
}

fn call_words(call: &CallRef) -> String {
    let (from, to) = (crate::template::plain(call.from.as_str()), crate::template::plain(call.to.as_str()));
    match call.moment {
        CallMoment::Ringing => format!("{from} rings {to}"),
        CallMoment::Talking => format!("{from} talks with {to}"),
        CallMoment::Releasing => format!("{from} talks with {to}, lock released"),
        CallMoment::Viewing => format!("{to} views {from}"),
    }
}

fn kind_words(kind: StateKind) -> &'static str {
    match kind {
        StateKind::StandbyDay => "standby day",
        StateKind::StandbyNight => "standby night",
        StateKind::Call => "call",
        StateKind::SelfView => "viewing",
        StateKind::AllCall => "all-call",
        StateKind::PowerReturn => "power return",
        StateKind::FireRelease => "fire release",
        StateKind::BatteryEnd => "battery",
        StateKind::LightLoad => "light load",
    }
}

fn plural(count: usize) -> &'static str {
    if count == 1 { "" } else { "s" }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_state_has_words_of_both_kinds() {
        for kind in StateKind::ALL {
            assert!(!few_words(&kind.into()).is_empty());
            assert!(in_words(&kind.into()).contains(' '));
        }
    }

    #[test]
    fn calls_are_named() {
        let call = |to: &str, moment| CallRef { from: "gate".into(), to: to.into(), moment };
        let state = OperatingState {
            kind: StateKind::Call,
            calls: vec![call("A-1", CallMoment::Ringing), call("A-2", CallMoment::Releasing)],
        };
        assert_eq!(few_words(&state), "2 calls");
        assert_eq!(in_words(&state), "with 2 calls at once");
        assert_eq!(
            calls_in_words(&state).as_deref(),
            Some("gate rings A-1; gate talks with A-2, lock released")
        );
    }
}
