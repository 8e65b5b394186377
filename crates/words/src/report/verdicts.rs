//! The verdict and what stands around it.

use crate::row::{sentences, words};

sentences! {
    /// The verdict on a site, with what was counted behind it.
    pub enum VerdictWords<'a> {
        Unusable { counted: Option<&'a str> }:
            "cannot be used, nothing was judged< ({counted})>"
            | "nicht verwendbar, nichts wurde beurteilt< ({counted})>",
        Usable { counted: Option<&'a str> }: "can be used< ({counted})>" | "verwendbar< ({counted})>",
        Fails { counted: Option<&'a str> }: "fails< ({counted})>" | "nicht eingehalten< ({counted})>",
        FailsAsAccepted { errors: usize, counted: Option<&'a str> }:
            "fails, with {errors:accepted error|accepted errors} and no other< ({counted})>"
            | "nicht eingehalten, mit {errors:akzeptierten Fehler|akzeptierten Fehlern} und keinem anderen< ({counted})>",
        Holds { counted: Option<&'a str> }:
            "holds in every state that was solved< ({counted})>"
            | "in jedem gerechneten Zustand eingehalten< ({counted})>",
        HoldsOnAssumedData { values: usize, counted: Option<&'a str> }:
            "holds in every state that was solved, on {values:assumed value|assumed values}< ({counted})>"
            | "in jedem gerechneten Zustand eingehalten, auf Grundlage von {values:Annahme|Annahmen}< ({counted})>",
        NotJudged { things: usize, counted: Option<&'a str> }:
            "nothing failed, but {things:thing|things} could not be judged< ({counted})>"
            | "nichts verletzt, aber {things:Sache|Sachen} nicht beurteilbar< ({counted})>",
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
            "{count:thing not judged|things not judged}" | "{count:Sache nicht beurteilt|Sachen nicht beurteilt}",
    }
}

sentences! {
    /// The device with the least margin. Voltages are numbers without their unit.
    pub enum Tightest<'a> {
        NoOperatingPoint { device: &'a str, source: &'a str, state: &'a str, limit: &'a str }:
            "worst: {device} on {source} goes dark {state}, the voltage collapses; it needs {limit}"
            | "am schlechtesten: {device} an {source} hat {state} keinen Arbeitspunkt; Grenzwert {limit}",
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
        ExistingCable: "Existing cable" | "Vorhandene Leitung",
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
        Caution:
            "A calculation, not a certificate. Isolate and prove dead before wiring; local codes and licensed practice prevail."
            | "Eine Berechnung, kein Nachweis. Vor dem Verdrahten freischalten und Spannungsfreiheit feststellen; örtliche Vorschriften und die Elektrofachkraft gehen vor.",
        Key:
            "V is the worst device's voltage with every tolerance against it, rounded down; A the largest current, rounded up. How much more it carries: latchline headroom."
            | "V ist die Spannung des ungünstigsten Geräts, alle Toleranzen dagegen, abgerundet; A der größte Strom, aufgerundet. Wie viel mehr sie trägt: latchline headroom.",
        KeyOfBounds:
            "≥ marks a certified lower bound."
            | "≥ bezeichnet eine zertifizierte untere Schranke.",
        ReleasesCounted:
            "Every door is counted as released outside its calls too (exit button, reader, keypad)."
            | "Jede Tür ist auch außerhalb ihrer Rufe als freigegeben gerechnet (Türöffnertaster, Leser, Tastatur).",
        ReleasesNotCounted:
            "A release outside a call (exit button, reader, keypad) is not counted; the policy's releases_outside_calls counts them."
            | "Eine Freigabe außerhalb eines Rufs (Türöffnertaster, Leser, Tastatur) ist nicht gerechnet; releases_outside_calls unter policy rechnet sie mit.",
        StationsOn { stations: usize }: "{stations:station|stations}" | "{stations:Station|Stationen}",
        WattsOf { power: &'a str, rated: &'a str }: "{power} of {rated} W" | "{power} von {rated} W",
        Watts { power: &'a str }: "{power} W" | same,
        BatteryHours { hours: &'a str, asked: Option<&'a str>, calls: &'a str }:
            "battery at the end of its life {hours} h< of {asked} h asked for>, {calls}"
            | "Batterie am Ende ihres Lebens {hours} h< von verlangten {asked} h>, {calls}",
        CallsAnHour { calls: &'a str, minutes: &'a str }:
            "{calls} calls an hour of {minutes} min" | "{calls} Rufe je Stunde zu {minutes} min",
        NoCallCounted: "no call counted" | "ohne Rufe",
        NoBattery: "no battery" | "keine Batterie",
        BatteryNotJudged: "battery not judged" | "Batterie nicht beurteilt",
        StandbyCurrent { current: &'a str }: "{current} A in standby by day (nominal)" | "{current} A in Ruhe bei Tag (Nennwert)",
        LoadingMargin { margin: &'a str }:
            "collapses at {margin} times this load"
            | "bricht bei {margin}-facher Last zusammen",
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
            "constants or losses of its data sheet, or measure the capacitance with the far end open and divide it by the length"
            | "Konstanten oder Dämpfungen aus dem Datenblatt, oder die Kapazität bei offenem fernem Ende messen und durch die Länge teilen",
        SearchBounded { state: &'a str, sets: &'a str }:
            "{state}: not all of {sets} combinations of calls could be tried; a worse one than is shown may exist"
            | "{state}: Nicht alle {sets} Verbindungen von Rufen ließen sich prüfen; es kann eine schlechtere als die gezeigte geben",
        RemediesNotSoughtToOne:
            "remedies: not looked for to one finding; `latchline fix SITE --finding N` looks for it"
            | "Abhilfen: zu einem Befund nicht gesucht; `latchline fix SITE --finding N` sucht sie",
        RemediesNotSought { count: usize }:
            "remedies: not looked for to the other findings ({count}); `latchline fix SITE --finding N` looks for them"
            | "Abhilfen: zu den übrigen Befunden ({count}) nicht gesucht; `latchline fix SITE --finding N` sucht sie",
        HowToGetIt:
            "Take what is missing from the part's datasheet, or measure it, and add it to the catalogue."
            | "Was fehlt, dem Datenblatt des Teils entnehmen oder messen und im Katalog ergänzen.",
        AssumedValues { values: &'a str }:
            "{values}. The verdict is as good as these: replace them by a datasheet's figure or a measurement."
            | "{values}. Das Ergebnis ist so gut wie diese Werte: durch Angaben eines Datenblatts oder eine Messung ersetzen.",
        RunsWithin { runs: usize, margin: &'a str, device: &'a str }:
            "{runs:more run keeps|more runs keep} voltage and current, with {margin} V or more to spare ({device})"
            | "{runs:weiterer Strang hält|weitere Stränge halten} Spannung und Strom ein, mit mindestens {margin} V Reserve ({device})",
        MoreOnThePage { file: &'a str, assumed: usize }:
            "Rests on {assumed:assumed value|assumed values}; these, all runs and lines of files: latchline check {file} --lines"
            | "Beruht auf {assumed:Annahme|Annahmen}; sie, alle Stränge und Zeilen der Dateien: latchline check {file} --lines",
        Reading { number: usize, element: &'a str }: "reading {number} at {element}" | "Messwert {number} an {element}",
        Workbook: "workbook" | "Arbeitsmappe",
    }
}

sentences! {
    /// Whether existing cable can stay.
    pub enum ExistingWords<'a> {
        CanStay { runs: &'a str }:
            "can stay, as measured: {runs}"
            | "kann bleiben, wie gemessen: {runs}",
        OnceMeasured { runs: &'a str }:
            "can stay if it measures as drawn (loop resistance and insulation are not stated): {runs}"
            | "kann bleiben, wenn es sich misst wie gezeichnet (Schleifenwiderstand und Isolation nicht angegeben): {runs}",
        CannotStay { run: &'a str, codes: &'a str }:
            "{run} cannot stay as it is: {codes}"
            | "{run} kann so nicht bleiben: {codes}",
    }
}
