//! `alarm-inputs-exceeded`

code! {
    "alarm-inputs-exceeded"
    title: "More alarm inputs than a door station has" | "Mehr Meldekontakte, als eine Türstation Eingänge hat",
    short: "too many alarm inputs" | "zu viele Meldekontakte",
    message:
        "{element} has {value} alarm inputs; {station} has {limit}"
        | "{element} hat {value} Meldekontakte; {station} hat {limit} Eingänge",
    label: "the first beyond" | "der erste zu viel",
    hint: "take a model with more inputs" | "ein Modell mit mehr Eingängen nehmen",
    english:
        /// # What it checks
        /// The number of alarm inputs that an entrance uses against those that its door station's model has
        /// (`alarm_inputs`; a model that states none has none).
        ///
        /// # Why it matters
        /// The contact that finds no terminal is looped in with another one, and nobody knows any more what the
        /// alarm means.
        ///
        /// # Example
        /// A tamper contact and a fire alarm contact at a door station with one input.
        ///
        /// # What to do
        /// Take a door station with more inputs, or bring the contact to the alarm system itself.
    german:
        /// # Was geprüft wird
        /// Die Zahl der Meldeeingänge, die ein Eingang benutzt, gegen die, die das Modell seiner Türstation hat
        /// (`alarm_inputs`; ein Modell, das keine nennt, hat keine).
        ///
        /// # Warum es zählt
        /// Der Kontakt, der keine Klemme findet, wird zu einem anderen geschleift, und niemand weiß mehr, was die
        /// Meldung bedeutet.
        ///
        /// # Beispiel
        /// Ein Sabotagekontakt und ein Kontakt der Brandmeldeanlage an einer Türstation mit einem Eingang.
        ///
        /// # Was zu tun ist
        /// Eine Türstation mit mehr Eingängen nehmen, oder den Kontakt an die Meldeanlage selbst führen.
}
