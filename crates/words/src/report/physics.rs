//! Power return, short circuit, sampled tolerances and signal bands: a line each.

use crate::row::sentences;

sentences! {
    /// What happens when power returns.
    pub enum PowerReturn<'a> {
        Line { what: &'a str }: "Power return: {what}." | "Netzwiederkehr: {what}.",
        AllUp { devices: usize, time: &'a str, last: Option<&'a str>, dropouts: Option<usize> }:
            "all {devices} devices are up after {time} s<, {last} last><; {dropouts:dropout|dropouts} on the way>"
            | "alle {devices} Geräte sind nach {time} s hochgefahren<, zuletzt {last}><; {dropouts:Ausfall|Ausfälle} unterwegs>",
        NotJudged { devices: usize }:
            "not judged for {devices:device|devices}: values are missing, listed under “not judged”"
            | "für {devices:Gerät|Geräte} nicht beurteilt: es fehlen Werte, die unter „nicht beurteilt“ stehen",
        Hiccups { period: Option<&'a str>, down: usize, devices: usize }:
            "drops out again and again< every {period}>; {down} of {devices} devices are down"
            | "fällt immer wieder aus<, alle {period}>; {down} von {devices} Geräten sind aus",
        BrownOut { down: usize, devices: usize }:
            "{down} of {devices} devices never come up"
            | "{down} von {devices} Geräten kommen nie hoch",
        Undecided { down: usize, devices: usize }:
            "not at rest in the time that is simulated; {down} of {devices} devices are down"
            | "in der gerechneten Zeit nicht zur Ruhe gekommen; {down} von {devices} Geräten sind aus",
    }
}

sentences! {
    /// Shorts at the ends of the runs of one supply.
    pub enum ShortCircuit<'a> {
        Line { least: &'a str, most: &'a str, acts: &'a str, dark: Option<&'a str> }:
            "Short at the end of a run: {least} to {most} A, {acts}<; {dark}>."
            | "Kurzschluss am Ende eines Strangs: {least} bis {most} A, {acts}<; {dark}>.",
        OneRun { current: &'a str, acts: &'a str, dark: Option<&'a str> }:
            "Short at the end of the run: {current} A, {acts}<; {dark}>."
            | "Kurzschluss am Ende des Strangs: {current} A, {acts}<; {dark}>.",
        Trips { runs: usize }: "trips on {runs:run|runs}" | "schaltet ab bei {runs:Strang|Strängen}",
        Limits { runs: usize }: "only limited on {runs:run|runs}" | "nur begrenzt bei {runs:Strang|Strängen}",
        Nothing { runs: usize }: "nothing acts on {runs:run|runs}" | "nichts spricht an bei {runs:Strang|Strängen}",
        Dark { dwellings: usize, run: &'a str }:
            "up to {dwellings:other dwelling|other dwellings} dark ({run})"
            | "bis zu {dwellings:weitere Wohnung|weitere Wohnungen} ohne Anlage ({run})",
    }
}

sentences! {
    /// How likely the worst device falls below its limit.
    pub enum Tolerance<'a> {
        Line {
            device: &'a str, limit: &'a str, below: usize, samples: usize, least: &'a str, most: &'a str,
            state: &'a str, spread: Option<&'a str>,
        }:
            "Tolerance: {device} is below {limit} in {below} of {samples} samples, {least} to {most} % at 95 % confidence, {state}<; spread from {spread}>."
            | "Toleranz: {device} liegt in {below} von {samples} Stichproben unter {limit}, {least} bis {most} % bei 95 % Vertrauen, {state}<; Streuung aus {spread}>.",
    }
}

sentences! {
    /// A band of signals.
    pub enum BandWords<'a> {
        Line {
            band: &'a str, low: &'a str, high: &'a str, station: &'a str, caller: &'a str, loss: &'a str,
            budget: &'a str, at: &'a str, ripple: Option<&'a str>, incomplete: Option<&'a str>,
        }:
            "{band}, {low} to {high}: weakest is {station} from {caller}, loss {loss} of {budget} dB at {at}<; {ripple}><; {incomplete}>."
            | "{band}, {low} bis {high}: am schwächsten {station} von {caller}, Dämpfung {loss} von {budget} dB bei {at}<; {ripple}><; {incomplete}>.",
        Ripple { ripple: &'a str, allowed: &'a str, station: &'a str }:
            "ripple up to {ripple} of {allowed} dB ({station})"
            | "Schwankung bis {ripple} von {allowed} dB ({station})",
        Incomplete:
            "looked at too few frequencies to be sure of every dip"
            | "zu wenige Frequenzen betrachtet, um jeder Senke sicher zu sein",
    }
}
