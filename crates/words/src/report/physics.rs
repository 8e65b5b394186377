//! Power return, short circuit, sampled tolerances and signal bands: a line each.

use crate::row::sentences;

sentences! {
    /// What happens when power returns.
    pub enum PowerReturn<'a> {
        Line { what: &'a str }: "Power return: {what}." | "Netzwiederkehr: {what}.",
        AllUp { devices: usize, time: &'a str, last: Option<&'a str>, dropouts: Option<usize>, trips: Option<usize> }:
            "{devices:the one device is|all # devices are} up after {time} s<, {last} last><; before that devices drop out again {dropouts:time|times}><; the supply switches off {trips:time|times}>"
            | "{devices:das eine Gerät ist|alle # Geräte sind} nach {time} s hochgefahren<, zuletzt {last}><; vorher fallen Geräte {dropouts:Mal|Mal} wieder aus><; das Netzteil schaltet {trips:Mal|Mal} ab>",
        UpAtOnce { devices: usize }:
            "{devices:device is|devices are} up at once, as soon as there is power"
            | "{devices:Gerät ist|Geräte sind} sofort da, sobald Spannung da ist",
        NotJudged { devices: usize }:
            "not judged for {devices:device|devices}: a value of one of them at least is missing, listed under “not judged”"
            | "für {devices:Gerät|Geräte} nicht beurteilt: es fehlen Werte, die unter „nicht beurteilt“ stehen",
        Hiccups { period: Option<&'a str>, down: usize, devices: usize }:
            "drops out again and again< every {period}>; {down} of {devices:device|devices} {down:~is|~are} down"
            | "fällt immer wieder aus<, alle {period}>; {down} von {devices:Gerät|Geräten} {down:~ist|~sind} aus",
        BrownOut { down: usize, devices: usize }:
            "{down} of {devices:device|devices} never {down:~comes|~come} up"
            | "{down} von {devices:Gerät|Geräten} {down:~kommt|~kommen} nie hoch",
        Undecided { down: usize, devices: usize }:
            "still going on and off at the end of the calculated time; {down} of {devices:device|devices} {down:~is|~are} down"
            | "am Ende der gerechneten Zeit noch nicht zur Ruhe gekommen; {down} von {devices:Gerät|Geräten} {down:~ist|~sind} aus",
    }
}

sentences! {
    /// Shorts at the ends of the runs of one supply.
    pub enum ShortCircuit<'a> {
        Line { least: &'a str, most: &'a str, acts: &'a str, dark: Option<&'a str> }:
            "A short at the end of a run draws {least} to {most} A: {acts}<. {dark}>."
            | "Ein Kurzschluss am Ende eines Strangs zieht {least} bis {most} A: {acts}<. {dark}>.",
        AllAlike { current: &'a str, acts: &'a str, dark: Option<&'a str> }:
            "A short at the end of any run draws {current} A: {acts}<. {dark}>."
            | "Ein Kurzschluss am Ende jedes Strangs zieht {current} A: {acts}<. {dark}>.",
        OneRun { current: &'a str, acts: &'a str, dark: Option<&'a str> }:
            "A short at the end of the run draws {current} A: {acts}<. {dark}>."
            | "Ein Kurzschluss am Ende des Strangs zieht {current} A: {acts}<. {dark}>.",
        Trips { runs: usize }: "switched off on {runs:run|runs}" | "abgeschaltet bei {runs:Strang|Strängen}",
        Limits { runs: usize }: "limited but not switched off on {runs:run|runs}" | "begrenzt, aber nicht abgeschaltet bei {runs:Strang|Strängen}",
        Nothing { runs: usize }: "neither limited nor switched off on {runs:run|runs}" | "weder begrenzt noch abgeschaltet bei {runs:Strang|Strängen}",
        Dark { dwellings: usize, run: &'a str }:
            "Up to {dwellings:other dwelling goes|other dwellings go} dark ({run})"
            | "Bis zu {dwellings:weitere Wohnung fällt|weitere Wohnungen fallen} aus ({run})",
    }
}

sentences! {
    /// How likely the worst device falls below its limit.
    pub enum Tolerance<'a> {
        Line {
            device: &'a str, limit: &'a str, below: usize, samples: usize, least: &'a str, most: &'a str,
            state: &'a str, spread: Option<&'a str>,
        }:
            "Tolerance: {device} is below {limit} in {below} of {samples} random trials ({least} to {most} %, 95 % confidence), {state}<; spread from {spread}>."
            | "Toleranz: {device} liegt in {below} von {samples} Zufallsversuchen unter {limit} ({least} bis {most} %, 95 % Vertrauen), {state}<; Streuung aus {spread}>.",
    }
}

sentences! {
    /// A band of signals.
    pub enum BandWords<'a> {
        Line {
            band: &'a str, low: &'a str, high: &'a str, station: &'a str, caller: &'a str, loss: &'a str,
            budget: &'a str, at: &'a str, lengths: &'a str, ripple: Option<&'a str>, incomplete: Option<&'a str>,
        }:
            "{band}, {low} to {high}: weakest is {station} from {caller}, loss {loss} of {budget} dB at {at}, {lengths}<; {ripple}><; {incomplete}>."
            | "{band}, {low} bis {high}: am schwächsten {station} von {caller}, Dämpfung {loss} von {budget} dB bei {at}, {lengths}<; {ripple}><; {incomplete}>.",
        Ripple { ripple: &'a str, allowed: &'a str, station: &'a str }:
            "ripple up to {ripple} of {allowed} dB ({station})"
            | "Schwankung bis {ripple} von {allowed} dB ({station})",
        Incomplete:
            "too few frequencies were calculated to be sure that no dip was missed"
            | "zu wenige Frequenzen gerechnet, um keinen Einbruch zu übersehen",
    }
}
