//! `dwelling-without-entrance`

code! {
    "dwelling-without-entrance"
    title: "No entrance calls this dwelling" | "Kein Eingang ruft diese Wohnung",
    short: "no entrance calls it" | "kein Eingang ruft sie",
    message: "no entrance calls {element}" | "Kein Eingang ruft {element}",
    hint:
        "add it, or its floor or building, to the \"calls\" of an entrance"
        | "sie, ihr Geschoss oder ihr Gebäude in die calls eines Eingangs aufnehmen",
    measure:
        "The voltage at that station in standby: right, and it still does not ring, is a call that nobody set, not a cable."
        | "Die Spannung an dieser Station in Ruhe: Stimmt sie und es klingelt trotzdem nicht, ist der Ruf nicht eingerichtet; die Leitung ist es nicht.",
    english:
        /// # What it checks
        /// That at least one entrance calls each dwelling (`calls` of the entrances). Whether the call can get
        /// there over the wiring is checked by `call-across-buses`; a site without any entrance is reported
        /// once, by `no-entrance`.
        ///
        /// # Why it matters
        /// These residents have a station that never rings.
        ///
        /// # Example
        /// Block C was added later; every entrance still says `calls = ["A", "B"]`.
        ///
        /// # What to do
        /// Add the dwelling, its floor or its building to the `calls` of an entrance.
    german:
        /// # Was geprüft wird
        /// Dass wenigstens ein Eingang jede Wohnung ruft (`calls` der Eingänge). Ob der Ruf über die Verdrahtung
        /// ankommt, prüft `call-across-buses`; eine Anlage ganz ohne Eingang wird einmal gemeldet, von
        /// `no-entrance`.
        ///
        /// # Warum es zählt
        /// Diese Bewohner haben eine Station, die nie läutet.
        ///
        /// # Beispiel
        /// Block C kam später dazu; jeder Eingang sagt noch `calls = ["A", "B"]`.
        ///
        /// # Was zu tun ist
        /// Die Wohnung, ihr Geschoss oder ihr Gebäude in die `calls` eines Eingangs aufnehmen.
}
