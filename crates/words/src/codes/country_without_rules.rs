//! `country-without-rules`

code! {
    "country-without-rules"
    title: "A country for which no rules are known" | "Ein Land ohne bekannte Regeln",
    message:
        "no rules are known here for the country \"{country}\""
        | "Für das Land „{country}“ sind hier keine Regeln bekannt",
    hint:
        "write it as two letters (\"GB\"); if it is right, look up its own rules<; heights are held against {source}>"
        | "mit zwei Buchstaben schreiben (\"GB\"); stimmt es, seine eigenen Regeln nachschlagen<; die Höhen werden an {source} gemessen>",
    english:
        /// # What it checks
        /// That something is known here for the country that the site file states: published rules for locks on escape
        /// routes, or heights of controls.
        ///
        /// # Why it matters
        /// Without them the advice is general. A name in place of the two letters, or "UK" for "GB", has the same effect
        /// and would pass unnoticed.
        ///
        /// # Example
        /// `country = "England"`.
        ///
        /// # What to do
        /// Write the country as two letters after ISO 3166-1 (`"GB"`). If it is right, look up its own rules with
        /// the responsible person.
    german:
        /// # Was geprüft wird
        /// Dass über das Land, das die Anlagendatei nennt, hier etwas bekannt ist: veröffentlichte Regeln für
        /// Schlösser an Fluchtwegen, oder Höhen von Bedienelementen.
        ///
        /// # Warum es zählt
        /// Ohne sie sind die Hinweise allgemein. Ein Name statt der zwei Buchstaben, oder „UK“ für „GB“, hat
        /// dieselbe Wirkung und bliebe unbemerkt.
        ///
        /// # Beispiel
        /// `country = "England"`.
        ///
        /// # Was zu tun ist
        /// Das Land mit zwei Buchstaben nach ISO 3166-1 schreiben (`"GB"`). Stimmt es, seine eigenen Regeln mit der
        /// verantwortlichen Person nachschlagen.
}
