//! `numbers-alike`

code! {
    "numbers-alike"
    title: "Two names differ in zeros only" | "Zwei Namen unterscheiden sich nur in Nullen",
    message: "\"{name}\" and \"{other}\" in row {row} are the same number" | "„{name}“ und „{other}“ in Zeile {row} sind dieselbe Nummer",
    english:
        /// The two names differ in leading zeros alone. It may be one dwelling entered twice; if they are two, both are dialled by the same number.
        ///
        /// Example: 1 and 01. Take one out, or give it another name.
    german:
        /// Beide Namen unterscheiden sich nur in führenden Nullen. Vielleicht ist es eine Wohnung, zweimal eingetragen; sind es zwei, haben beide
        /// dieselbe Rufnummer.
        ///
        /// Beispiel: 1 und 01. Eine streichen oder anders nennen.
}
