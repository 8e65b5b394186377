//! The verdict and what stands around it.

use crate::row::{sentences, words};
use latchline_finding::Figure;

sentences! {
    /// The verdict on a site, with what was counted behind it.
    pub enum VerdictWords<'a> {
        Unusable { counted: Option<&'a str> }:
            "cannot be used, nothing was judged< ({counted})>"
            | "nicht verwendbar, nichts wurde beurteilt< ({counted})>",
        Usable { counted: Option<&'a str> }: "can be used< ({counted})>" | "verwendbar< ({counted})>",
        Fails { counted: Option<&'a str> }: "fails< ({counted})>" | "nicht eingehalten< ({counted})>",
        FailsAsAccepted { errors: usize, counted: Option<&'a str> }:
            "fails, with every error accepted ({errors:error|errors}<, {counted}>)"
            | "nicht eingehalten, jeder Fehler akzeptiert ({errors:Fehler|Fehler}<, {counted}>)",
        Holds { counted: Option<&'a str> }:
            "holds in every state that was calculated< ({counted})>"
            | "in jedem gerechneten Zustand eingehalten< ({counted})>",
        HoldsOnAssumedData { values: usize, counted: Option<&'a str> }:
            "holds in every state that was calculated, on {values:assumed value|assumed values}< ({counted})>"
            | "in jedem gerechneten Zustand eingehalten, auf Grundlage von {values:Annahme|Annahmen}< ({counted})>",
        NotJudged { things: usize, counted: Option<&'a str> }:
            "nothing failed, but not all was judged ({things:thing|things}<, {counted}>)"
            | "nichts verletzt, aber nicht alles beurteilt ({things:Punkt|Punkte}<, {counted}>)",
    }
}

sentences! {
    /// How many findings there are of a kind.
    pub enum Counted {
        Errors { count: usize }: "{count:error|errors}" | "{count:Fehler|Fehler}",
        Warnings { count: usize }: "{count:warning|warnings}" | "{count:Warnung|Warnungen}",
        Advice { count: usize }: "{count:piece of advice|pieces of advice}" | "{count:Hinweis|Hinweise}",
        Accepted { count: usize }: "{count:accepted|accepted}" | "{count:akzeptiert|akzeptiert}",
        NotJudged { count: usize }:
            "{count:thing not judged|things not judged}" | "{count:Punkt nicht beurteilt|Punkte nicht beurteilt}",
    }
}

sentences! {
    /// The device with the least margin. Voltages are numbers without their unit.
    pub enum Tightest<'a> {
        NoOperatingPoint { device: &'a str, source: &'a str, state: &'a str, limit: &'a str }:
            "worst: {device} on {source} goes dark {state}, the voltage collapses; it needs {limit}"
            | "am schlechtesten: {device} an {source} fällt aus ({state}), die Spannung bricht zusammen; nötig sind {limit}",
        Below { device: &'a str, source: &'a str, voltage: &'a str, short: &'a str, limit: &'a str, state: &'a str }:
            "worst: {device} on {source} has {voltage} V, {short} V below its limit of {limit}, {state}"
            | "am schlechtesten: {device} an {source} hat {voltage} V, {short} V unter dem Grenzwert von {limit} ({state})",
        Above { device: &'a str, source: &'a str, voltage: &'a str, spare: &'a str, limit: &'a str, state: &'a str }:
            "tightest: {device} on {source} has {voltage} V, {spare} V above its limit of {limit}, {state}"
            | "am knappsten: {device} an {source} hat {voltage} V, {spare} V über dem Grenzwert von {limit} ({state})",
        AtLeast { voltage: &'a str }: "at least {voltage}" | "mindestens {voltage}",
    }
}

words! {
    /// Heads of blocks and columns of the report.
    pub enum Head {
        Accepted: "Accepted" | "Akzeptiert",
        AssumedValues: "Assumed values" | "Angenommene Werte",
        NotJudged: "Not judged" | "Nicht beurteilt",
        OtherRuns: "Other runs" | "Weitere Stränge",
        Signal: "Signal" | same,
        NoRuns: "no runs" | "keine Stränge",
        None: "none" | "keine",
        From: "From" | "Von",
        Run: "Run" | "Strang",
        RunNamed: "run {}" | "Strang {}",
        Stations: "Stations" | "Stationen",
        On: "on" | "daran",
        OnIt: "{} on it" | "{} daran",
        Cable: "Cable" | "Leitung",
        Current: "Current" | "Strom",
        Limit: "limit" | "Grenze",
        LimitAmperes: "limit {} A" | "Grenze {} A",
        WorstDevice: "Worst device" | "Ungünstigstes Gerät",
        WorstNamed: "worst {}" | "am ungünstigsten {}",
        LimitVolts: "limit {} V" | "Grenzwert {} V",
        Margin: "margin" | "Reserve",
        MarginVolts: "margin {} V" | "Reserve {} V",
        State: "state" | "Zustand",
    }
}

sentences! {
    /// Further lines of the report.
    pub enum Remark<'a> {
        Seeking: "trying what mends it" | "prüfe, was es behebt",
        Caution:
            "A calculation, not a certificate. Isolate and prove dead before wiring; local codes and licensed practice prevail."
            | "Eine Berechnung, kein Nachweis. Vor dem Verdrahten freischalten und Spannungsfreiheit feststellen; örtliche Vorschriften und die Elektrofachkraft gehen vor.",
        Key:
            "V is the worst device's voltage with every tolerance at its worst, rounded down; A the largest current, rounded up. How much more it carries: latchline headroom."
            | "V ist die Spannung des ungünstigsten Geräts, alle Toleranzen ungünstigst, abgerundet; A der größte Strom, aufgerundet. Wie viel mehr sie trägt: latchline headroom.",
        KeyOfBounds:
            "≥: at least so much; the true figure is not lower."
            | "≥: mindestens so viel; der wahre Wert liegt nicht tiefer.",
        CanStay { runs: &'a str }: "Existing cable that can stay: {runs}." | "Vorhandene Leitungen, die bleiben können: {runs}.",
        CanStayIfMeasured { runs: &'a str }:
            "Existing cable that can stay if it measures as assumed (loop and insulation): {runs}."
            | "Vorhandene Leitungen, die bleiben können, wenn Schleife und Isolation sich wie angenommen messen: {runs}.",
        ExistingWarned { runs: &'a str }:
            "Existing cable that can stay, with a warning: {runs}."
            | "Vorhandene Leitungen, die bleiben können, mit Warnung: {runs}.",
        ExistingReadsOtherwise { runs: &'a str }:
            "Existing cable that reads otherwise than stated, to be looked into first: {runs}."
            | "Vorhandene Leitungen, die anders messen als angegeben, erst zu klären: {runs}.",
        ExistingFails { runs: &'a str }:
            "Existing cable that cannot stay as it is: {runs}."
            | "Vorhandene Leitungen, die so nicht bleiben können: {runs}.",
        ExistingNotJudged { runs: &'a str }:
            "Existing cable that could be judged only in part: {runs}."
            | "Vorhandene Leitungen, die nur zum Teil beurteilt sind: {runs}.",
        ReleasesCounted:
            "Every door that draws current for a release is counted as released outside its calls too (exit button, reader, keypad)."
            | "Jede Tür, deren Freigabe Strom braucht, ist auch außerhalb ihrer Rufe als freigegeben gerechnet (Türöffnertaster, Leser, Tastatur).",
        SomeReleasesCounted { at_once: usize, doors: usize }:
            "Of {doors} doors the worst {at_once} at once are counted as released outside their calls too (exit button, reader, keypad)."
            | "Von {doors} Türen sind die ungünstigsten {at_once} gleichzeitig auch außerhalb ihrer Rufe als freigegeben gerechnet (Türöffnertaster, Leser, Tastatur).",
        OneReleaseCounted { doors: usize }:
            "Of {doors} doors the worst one is counted as released outside its calls too (exit button, reader, keypad)."
            | "Von {doors} Türen ist die ungünstigste auch außerhalb ihrer Rufe als freigegeben gerechnet (Türöffnertaster, Leser, Tastatur).",
        ReleasesNotCounted:
            "A release outside a call (exit button, reader, keypad) is not counted here; with releases_at_once of 1 or more under [policy] it is."
            | "Freigaben außerhalb von Rufen (Taster, Leser, Tastatur) sind nicht gerechnet; mit releases_at_once von 1 oder mehr unter [policy] sind sie es.",
        StationsOn { stations: usize, share: Option<&'a str> }:
            "{stations:station|stations}< ({share} % of the number allowed)>"
            | "{stations:Station|Stationen}< ({share} % der erlaubten Anzahl)>",
        LeftOpen { what: &'a str, more: Option<usize> }:
            "Not judged: {what}<; and {more:further kind|further kinds}>. What to enter stands below."
            | "Nicht beurteilt: {what}<; und {more:weitere Art|weitere Arten}>. Was anzugeben ist, steht unten.",
        WattsOf { power: &'a str, rated: &'a str }: "at most {power} of {rated} W" | "höchstens {power} von {rated} W",
        Watts { power: &'a str }: "at most {power} W" | "höchstens {power} W",
        BatteryHours { hours: &'a str, asked: Option<&'a str>, calls: &'a str }:
            "an old battery lasts {hours} h<, {asked} h are asked for>, {calls}"
            | "eine alte Batterie reicht {hours} h<, verlangt sind {asked} h>, {calls}",
        CallsAnHour { calls: &'a str, minutes: &'a str }:
            "{calls} calls an hour of {minutes} min" | "{calls} Rufe je Stunde zu {minutes} min",
        OneCallAnHour { minutes: &'a str }: "one call an hour of {minutes} min" | "ein Ruf je Stunde zu {minutes} min",
        NoCallCounted: "no call counted" | "ohne Rufe",
        CallsCollapse:
            "no call counted since the voltage collapses in one"
            | "ohne Rufe, da die Spannung dabei zusammenbricht",
        NoBattery { asked: Option<&'a str> }:
            "no battery<, {asked} h are asked for>"
            | "keine Batterie<, verlangt sind {asked} h>",
        BatteryNotJudged: "battery not judged" | "Batterie nicht beurteilt",
        StandbyCurrent { current: &'a str }: "{current} A in standby by day (nominal)" | "{current} A in Ruhe bei Tag (Nennwert)",
        LoadingMargin { margin: &'a str, bound: Option<&'a str> }:
            "the voltage holds up to< {bound}> {margin} times this load"
            | "die Spannung bricht erst bei< {bound}> {margin}-facher Last zusammen",
        FirstLimit { factor: &'a str, bound: Option<&'a str>, limit: &'a str, element: &'a str, state: &'a str }:
            "if every load grew alike, all limits would hold up to< {bound}> {factor} times this load; the first is {limit} at {element} ({state})"
            | "wüchsen alle Lasten gleich, hielten alle Grenzen bis zur< {bound}> {factor}-fachen Last; die erste ist {limit} an {element} ({state})",
        CurrentOf { current: &'a str, limit: &'a str, state: &'a str }:
            "{current} of {limit} A ({state})"
            | "{current} von {limit} A ({state})",
        CurrentIn { current: &'a str, state: &'a str }: "{current} A ({state})" | same,
        NoOperatingPoint { state: &'a str }: "the voltage collapses ({state})" | "die Spannung bricht zusammen ({state})",
        MoreOf { count: usize, code: &'a str }: "and {count} more of {code}:" | "und {count} weitere {code}:",
        RemedyBehind { message: &'a str, remedy: &'a str }: "{message}; remedy: {remedy}" | "{message}; Abhilfe: {remedy}",
        Needs { missing: &'a str, elements: Option<&'a str>, how: Option<&'a str> }:
            "needs {missing}< (for {elements})><: {how}>"
            | "braucht {missing}< (für {elements})><: {how}>",
        LineConstants:
            "constants or losses of its data sheet; or measure the capacitance with the far end open, divide it by the length, and take the other three constants from a like cable, as assumed: latchline catalogue"
            | "Konstanten oder Dämpfungen aus dem Datenblatt; oder die Kapazität bei offenem fernem Ende messen, durch die Länge teilen und die anderen drei Konstanten einer ähnlichen Leitung als Annahme nehmen: latchline catalogue",
        SearchBounded { state: &'a str, sets: &'a str }:
            "{state}: not all {sets} combinations of calls could be tried; one that was left out may be worse than what is shown"
            | "{state}: Nicht alle {sets} Rufkombinationen ließen sich rechnen; eine ausgelassene kann schlechter sein als die gezeigte",
        RemediesNotSoughtToOne:
            "remedies were sought for all findings but one; `latchline fix SITE --finding N` seeks it"
            | "Abhilfen: zu einem Befund nicht gesucht; `latchline fix SITE --finding N` sucht sie",
        RemediesNotSought { count: usize }:
            "remedies were sought for the worst findings only, not for the other {count}; `latchline fix SITE --finding N` seeks them"
            | "Abhilfen: zu den übrigen Befunden ({count}) nicht gesucht; `latchline fix SITE --finding N` sucht sie",
        HowToGetIt:
            "Missing of a part: take it from its data sheet or measure it, and add it to the catalogue. Missing of a door or a run: state it in the site file."
            | "Was zu einem Teil fehlt: seinem Datenblatt entnehmen oder messen und im Katalog ergänzen. Was zu einer Tür oder einem Strang fehlt: in der Anlagendatei angeben.",
        AssumedValues { values: &'a str }:
            "{values}. The verdict is as good as these: replace them by data sheet figures or measurements."
            | "{values}. Das Ergebnis ist so gut wie diese Werte: durch Angaben eines Datenblatts oder eine Messung ersetzen.",
        SetBelow { set: Figure, delivered: Figure }:
            "set to {set}, delivered at {delivered}"
            | "auf {set} eingestellt, geliefert mit {delivered}",
        RunsInTrouble { runs: usize, names: &'a str }:
            "{runs:more run is|more runs are} in trouble, with no less margin: {names}"
            | "{runs:weiterer Strang hat|weitere Stränge haben} Fehler, mit nicht weniger Reserve: {names}",
        AsTheSupply { supply: &'a str, like: &'a str, worst: Option<&'a str> }:
            "{supply}: the same as {like}, figure for figure<; worst {worst}>"
            | "{supply}: wie {like}, Zahl für Zahl<; am knappsten {worst}>",
        RunsWithin { runs: usize, margin: &'a str, device: &'a str }:
            "{runs:more run keeps|more runs keep} voltage and current, with {margin} V or more to spare ({device})"
            | "{runs:weiterer Strang hält|weitere Stränge halten} Spannung und Strom ein, Reserve ab {margin} V ({device})",
        AllRunsWithin { runs: usize, margin: &'a str, device: &'a str }:
            "{runs:run keeps|runs keep} voltage and current, with {margin} V or more to spare ({device})"
            | "{runs:Strang hält|Stränge halten} Spannung und Strom ein, Reserve ab {margin} V ({device})",
        MoreOnThePage { file: &'a str, assumed: usize }:
            "Rests on {assumed:assumed value|assumed values}. They, every run and the lines of the file are shown by: latchline check {file} --lines"
            | "Beruht auf {assumed:Annahme|Annahmen}. Diese, alle Stränge und Zeilen der Datei zeigt: latchline check {file} --lines",
        Reading { number: usize, element: &'a str }: "reading {number} at {element}" | "Messwert {number} an {element}",
        Workbook: "workbook" | "Arbeitsmappe",
    }
}
