//! `reach`.

use crate::row::{sentences, words};

words! {
    /// What one more station would break.
    pub enum LimitWord {
        Voltage: "voltage" | "Spannung",
        Collapse: "collapse" | "Zusammenbruch",
        PortCurrent: "port current" | "Strom des Abgangs",
        SupplyCurrent: "supply current" | "Strom des Netzteils",
        Count: "count" | "Anzahl",
        Length: "length" | "Länge",
        Signal: "signal" | "Signal",
        StartUp: "start-up" | "Anlauf",
        ShortCircuit: "short circuit" | "Kurzschluss",
        OtherRule: "another rule" | "eine andere Regel",
        Undecided: "undecided" | "unentschieden",
        None: "none" | "nichts",
    }
}

sentences! {
    /// What `reach` says, in its table and on its chart.
    pub enum ReachWords<'a> {
        Asked { station: &'a str, distributor: &'a str, supply: &'a str, calls: usize }:
            "Most {station} on one port of {distributor} fed by {supply}, {calls:call|calls} at once."
            | "Höchstzahl {station} an einem Abgang von {distributor}, gespeist von {supply}, {calls:gleichzeitiger Ruf|gleichzeitige Rufe}.",
        Corner { hottest: &'a str, longer: &'a str, feed: &'a str, feed_cable: &'a str }:
            "Worst state, every tolerance at its worst; conductors at {hottest} °C, lengths {longer} % long. Up to {feed} m of {feed_cable} from the supply to the distributor. Where the family asks for terminators, every run ends in one."
            | "Ungünstigster Zustand, alle Toleranzen ungünstigst; Adern bei {hottest} °C, Längen {longer} % länger. Bis {feed} m {feed_cable} vom Netzteil zum Verteiler. Wo die Familie Abschlüsse verlangt, hat jeder Strang einen.",
        Doors { supply: &'a str, doors: usize, model: &'a str, length: &'a str, cable: &'a str, at: &'a str }:
            "Assumed with {supply}: {doors:door station|door stations} {model}, each behind {length} of {cable}, {at}."
            | "Angenommen mit {supply}: {doors:Türstation|Türstationen} {model}, je hinter {length} {cable}, {at}.",
        NoLocks: "No door feeds a lock." | "Keine Tür speist ein Schloss.",
        DoorsOnSupply { doors: usize }:
            "{doors} on outputs of the supply beside the feed"
            | "{doors} an Ausgängen des Netzteils neben der Zuleitung",
        DoorsOnBranchBox { doors: usize }:
            "{doors} at the supply by a branch box, since no port of the distributor gives as much as one draws"
            | "{doors} am Netzteil über einen Abzweigkasten, da kein Abgang des Verteilers so viel gibt, wie eine nimmt",
        DoorsOnPorts { doors: usize }:
            "{doors} on ports of the distributor beside the chain's"
            | "{doors} an Abgängen des Verteilers neben dem der Kette",
        FewerFail { what: &'a str }:
            "* Fewer stations do not always work, since a signal may pass with more and not with fewer: {what}."
            | "* Weniger Stationen gehen nicht immer, denn ein Signal kann mit mehr ankommen und mit weniger nicht: {what}.",
        FewerFailAt { cable: &'a str, spacing: &'a str, feeder: &'a str, counts: &'a str }:
            "{cable} at {spacing} m behind {feeder} m not {counts}"
            | "{cable} bei {spacing} m hinter {feeder} m nicht {counts}",
        OfCable { cable: &'a str }:
            "{cable}: stations by spacing (down) and feeder (across), in metres"
            | "{cable}: Stationen nach Abstand (abwärts) und Zuleitung (quer), in Metern",
        ByCable { feeder: &'a str }:
            "Stations by cable (down) and spacing (across), behind {feeder} m of feeder"
            | "Stationen nach Leitung (abwärts) und Abstand (quer), hinter {feeder} m Zuleitung",
        Limits { limits: &'a str }:
            "In brackets, what one station more would break: {limits}."
            | "In Klammern, was eine Station mehr verletzen würde: {limits}.",
        AtMost { most: usize }:
            "The table ends at {most} stations."
            | "Die Tabelle endet bei {most} Stationen.",
        AtMostWere { most: usize }:
            "No more than {most} stations were tried."
            | "Mehr als {most} Stationen wurden nicht versucht.",
        Judged:
            "Every rule of check was applied, signal and start-up included."
            | "Geprüft wurde jede Regel von check, auch Signal und Anlauf.",
        NotJudgedFor { codes: &'a str, cables: &'a str }:
            "Not judged, since values are missing: {codes} ({cables})."
            | "Nicht beurteilt, da Werte fehlen: {codes} ({cables}).",
        Caution:
            "A calculation, not a certificate; check the real site with: latchline check"
            | "Eine Berechnung, kein Nachweis; die wirkliche Anlage prüfen mit: latchline check",
        // The chart.
        ChartTitle { family: &'a str, station: &'a str }:
            "{family}: most {station} on one port"
            | "{family}: Höchstzahl {station} an einem Abgang",
        ChartSubtitle { distributor: &'a str, supply: &'a str, feeder: &'a str, calls: usize }:
            "{distributor} fed by {supply}, {feeder} m of feeder, {calls:call|calls} at once; worst state, every tolerance at its worst"
            | "{distributor}, gespeist von {supply}, {feeder} m Zuleitung, {calls:gleichzeitiger Ruf|gleichzeitige Rufe}; ungünstigster Zustand, alle Toleranzen ungünstigst",
        ChartSpacing: "spacing, m" | "Abstand, m",
        ChartStations: "stations" | "Stationen",
        ChartShared { cable: &'a str, others: &'a str }: "As {cable}: {others}." | "Wie {cable}: {others}.",
        ChartCaution:
            "A calculation, not a certificate; check the real site."
            | "Eine Berechnung, kein Nachweis; die wirkliche Anlage prüfen.",
    }
}
