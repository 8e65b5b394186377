//! `accessory-chain-too-long`

code! {
    "accessory-chain-too-long"
    title: "More modules than a door station takes" | "Mehr Module, als eine Türstation aufnimmt",
    short: "too many modules" | "zu viele Module",
    message:
        "{element} has {value} modules; {model} takes {limit}"
        | "{element} hat {value} Module; {model} nimmt {limit}",
    hint:
        "take modules with more buttons, or a door station with a directory"
        | "Module mit mehr Tasten, oder eine Türstation mit Namensverzeichnis",
    english:
        /// # What it checks
        /// The number of modules in a door station's chain against its model's `accessory_modules`. A model
        /// that states no such limit is not held to one; the current is judged beside it.
        ///
        /// # Why it matters
        /// Modules are numbered along their chain. Those beyond the limit have no number and do nothing.
        ///
        /// # Example
        /// Five button modules on a door station that takes four.
        ///
        /// # What to do
        /// Take modules with more buttons, or a door station with a directory.
    german:
        /// # Was geprüft wird
        /// Die Zahl der Module in der Kette einer Türstation gegen `accessory_modules` ihres Modells. Ein Modell,
        /// das keine solche Grenze nennt, wird an keiner gemessen; der Strom wird daneben beurteilt.
        ///
        /// # Warum es zählt
        /// Module werden entlang ihrer Kette nummeriert. Was jenseits der Grenze liegt, hat keine Nummer und tut
        /// nichts.
        ///
        /// # Beispiel
        /// Fünf Tastenmodule an einer Türstation, die vier annimmt.
        ///
        /// # Was zu tun ist
        /// Module mit mehr Tasten nehmen, oder eine Türstation mit Namensverzeichnis.
}
