//! `cell-out-of-range`

code! {
    "cell-out-of-range"
    title: "A number is outside its range" | "Eine Zahl liegt außerhalb ihres Bereichs",
    message:
        "<{column}: >{found} is outside {least} to {most}"
        | "<{column}: >{found} liegt nicht zwischen {least} und {most}",
    english:
        /// The range is wide enough for any real building; a number beyond it is a slip of the unit or of the decimal point.
        ///
        /// Example: a drop of 1500 m that should be 15 m.
    german:
        /// Der Bereich ist weit genug für jedes wirkliche Gebäude; eine Zahl darüber hinaus ist ein Versehen bei der Einheit oder beim Komma.
        ///
        /// Beispiel: eine Stichleitung von 1500 m, die 15 m sein soll.
}
