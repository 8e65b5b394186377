//! `section-very-short`

code! {
    "section-very-short"
    title: "A section of a few centimetres" | "Ein Abschnitt von wenigen Zentimetern",
    short: "very short section" | "Abschnitt sehr kurz",
    message:
        "the cable of run {element} to {stop} is {length} long<, and {more} more of its sections are as short>: is the unit right?"
        | "Strang {element} ist bis {stop} nur {length} lang<, und {more} weitere Abschnitte sind so kurz>: Stimmt die Einheit?",
    hint: "write metres as m, not mm or cm; parts side by side may be so near" | "Meter als m schreiben, nicht mm oder cm; Teile nebeneinander können so nah sein",
    english:
        /// # What it checks
        /// Sections of runs that are shorter than 0.3 m (common practice, no source). Parts that hang side by side may be so near;
        /// stations of two flats are not.
        ///
        /// # Why it matters
        /// 12 mm typed for 12 m costs no voltage and loses no picture, so that everything passes on paper.
        ///
        /// # Example
        /// `lengths = ["12 mm", "6 m"]`.
        ///
        /// # What to do
        /// Look at the unit. If the length is right, accept it with a reason.
    german:
        /// # Was geprüft wird
        /// Abschnitte von Strängen, die kürzer sind als 0,3 m (üblich, keine Quelle). Teile nebeneinander können so
        /// nah sein, Stationen zweier Wohnungen nicht.
        ///
        /// # Warum es zählt
        /// 12 mm statt 12 m kosten keine Spannung und dämpfen kein Bild, also hält auf dem Papier alles.
        ///
        /// # Beispiel
        /// `lengths = ["12 mm", "6 m"]`.
        ///
        /// # Was zu tun ist
        /// Die Einheit ansehen. Stimmt die Länge, mit Begründung akzeptieren.
}
