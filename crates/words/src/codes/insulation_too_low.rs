//! `insulation-too-low`

code! {
    "insulation-too-low"
    title: "The insulation of a run is too low" | "Die Isolation eines Strangs ist zu niedrig",
    short: "insulation too low" | "Isolation zu niedrig",
    message:
        "the insulation of run {element} is {value}, less than {limit}"
        | "Die Isolation des Strangs {element} ist {value}, weniger als {limit}",
    hint:
        "look for damp joints and bared conductors, with the electronics disconnected"
        | "bei abgeklemmter Elektronik nach feuchten Verbindungen und blanken Adern suchen",
    measure:
        "With all electronics taken off, the insulation at 250 V between the conductors and of each to earth; then of each half, divided at a joint."
        | "Alle Elektronik abgeklemmt, die Isolation bei 250 V zwischen den Adern und jeder gegen Erde; dann jeder Hälfte, an einer Klemmstelle geteilt.",
    english:
        /// # What it checks
        /// The measured insulation resistance of a run, between its conductors or to earth, whichever is
        /// lower. Below 0.5 Mohm is an error: the least for SELV and PELV circuits at a test voltage of 250 V DC
        /// (IEC 60364-6 table 6A, BS 7671 table 64; quoted from memory). It is the limit that the commissioning sheets
        /// print.
        ///
        /// # Why it matters
        /// Sound cable has hundreds of megohms. What is lower is damp, crushed or has a nail in it, and will
        /// not get better; the leakage also damps speech and shifts readings.
        ///
        /// # Example
        /// A-R3 has 0.3 Mohm to earth.
        ///
        /// # What to do
        /// Make sure that all electronics were disconnected, as they pull the reading down and 250 V destroys
        /// them. Then divide the run at a joint, measure both parts, and replace the bad one.
    german:
        /// # Was geprüft wird
        /// Den gemessenen Isolationswiderstand eines Strangs, zwischen seinen Adern oder gegen Erde, den kleineren
        /// von beiden. Unter 0,5 MΩ ist ein Fehler: der kleinste Wert für SELV und PELV bei 250 V DC Prüfspannung
        /// (IEC 60364-6, Tabelle 6A, BS 7671, Tabelle 64; aus dem Gedächtnis). Denselben Grenzwert drucken die
        /// Inbetriebnahmeblätter.
        ///
        /// # Warum es zählt
        /// Gesunde Leitung hat Hunderte Megaohm. Was darunter liegt, ist feucht, gequetscht oder hat einen Nagel im
        /// Leib und wird nicht besser; der Leckstrom dämpft auch die Sprache und verschiebt Messwerte.
        ///
        /// # Beispiel
        /// A-R3 hat 0,3 MΩ gegen Erde.
        ///
        /// # Was zu tun ist
        /// Sicherstellen, dass alle Elektronik abgeklemmt war: Sie zieht den Messwert herunter, und 250 V zerstören
        /// sie. Dann den Strang an einer Verbindung teilen, beide Teile messen und den schlechten ersetzen.
}
