//! `entrance-calls-nobody`

code! {
    "entrance-calls-nobody"
    title: "An entrance that can call nobody" | "Ein Eingang, der niemanden rufen kann",
    short: "calls nobody" | "ruft niemanden",
    message: "entrance {element} can call nobody" | "Eingang {element} kann niemanden rufen",
    hint: "add \"calls\"" | "calls ergänzen",
    measure:
        "The voltage at the door station in standby: right, and nothing rings, is its list of calls, not the cable."
        | "Die Spannung an der Türstation in Ruhe: Stimmt sie und nichts klingelt, ist es die Liste ihrer Rufe; die Leitung ist es nicht.",
    english:
        /// # What it checks
        /// That each entrance calls at least one dwelling or management station.
        ///
        /// # Why it matters
        /// Visitors press and nothing rings.
        ///
        /// # Example
        /// `calls = ["A/3"]`, and there is no dwelling on that floor.
        ///
        /// # What to do
        /// Correct `calls`, or leave the door station out where a keypad or reader is all that is wanted.
    german:
        /// # Was geprüft wird
        /// Dass jeder Eingang wenigstens eine Wohnung oder Zentrale ruft.
        ///
        /// # Warum es zählt
        /// Besucher drücken, und nichts läutet.
        ///
        /// # Beispiel
        /// `calls = ["A/3"]`, und in diesem Geschoss ist keine Wohnung.
        ///
        /// # Was zu tun ist
        /// `calls` berichtigen, oder die Türstation weglassen, wo nur eine Codetastatur oder ein Leser gewollt ist.
}
