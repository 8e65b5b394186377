//! `line-constants-missing`

code! {
    "line-constants-missing"
    title: "Signal over a cable without line constants" | "Signal über eine Leitung ohne Leitungskonstanten",
    short: "no line constants" | "Leitungsdaten fehlen",
    message:
        "{element} is of a cable without line constants"
        | "{element} ist eine Leitung ohne Leitungskonstanten",
    measure:
        "The capacitance of a known length of this cable, far end open, with nothing else on it."
        | "Die Kapazität einer bekannten Länge dieser Leitung, fernes Ende offen, sonst nichts daran.",
    english:
        /// # What it checks
        /// In a family that states bands for its signals, that every cable on the same pairs has line constants. Without them
        /// no signal on that network is judged, since a cable of unknown capacitance hangs on all of it.
        ///
        /// # Why it matters
        /// What is not judged is not clean: a site can pass every voltage and still show no picture.
        ///
        /// # Example
        /// Run A-R5 is of a cable without `line`; signals from the gate cannot be judged.
        ///
        /// # What to do
        /// Add `line` to the cable, with capacitance, inductance, skin corner and loss tangent from its datasheet. The capacitance can
        /// be measured on site: far end open, electronics disconnected, divided by the length. The inductance of a pair in one
        /// sheath is 0.5 to 0.7 mH/km.
    german:
        /// # Was geprüft wird
        /// In einer Gerätefamilie, die Bänder für ihre Signale nennt: dass jede Leitung an denselben Paaren
        /// Leitungskonstanten hat. Ohne sie wird auf diesem Netz kein Signal beurteilt, denn eine Leitung
        /// unbekannter Kapazität hängt an allem.
        ///
        /// # Warum es zählt
        /// Was nicht beurteilt ist, ist nicht in Ordnung: Eine Anlage kann jede Spannung einhalten und doch kein
        /// Bild zeigen.
        ///
        /// # Beispiel
        /// Strang A-R5 ist aus einer Leitung ohne `line`; Signale vom Tor lassen sich nicht beurteilen.
        ///
        /// # Was zu tun ist
        /// `line` bei der Leitung ergänzen, mit Kapazität, Induktivität, Knick des Skineffekts und Verlustfaktor
        /// aus dem Datenblatt. Die Kapazität lässt sich vor Ort messen: fernes Ende offen, Elektronik abgeklemmt,
        /// durch die Länge geteilt. Die Induktivität eines Paars in einem Mantel ist 0,5 bis 0,7 mH/km.
}
