//! `sheet-twice`

code! {
    "sheet-twice"
    title: "Two sheets mean the same" | "Zwei Blätter meinen dasselbe",
    message: "two sheets are called \"{sheet}\"" | "Zwei Blätter heißen „{sheet}“",
    hint: "keep one" | "eines behalten",
    english:
        /// Sheets are found by their names, in capitals or not, singular or plural. Two of them mean the same one; which is right is not guessed.
        ///
        /// Keep one of the two.
    german:
        /// Blätter werden an ihren Namen erkannt, groß oder klein, Einzahl oder Mehrzahl. Zwei meinen dasselbe; welches gilt, wird nicht geraten.
        ///
        /// Eines der beiden behalten.
}
