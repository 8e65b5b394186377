//! `directory-too-small`

code! {
    "directory-too-small"
    title: "A door station cannot call as many dwellings as it should" | "Eine Türstation kann nicht so viele Wohnungen rufen, wie sie soll",
    short: "directory too small" | "Rufliste zu klein",
    message:
        "{element} should call {value} dwellings; {model} can call {limit}"
        | "{element} soll {value} Wohnungen rufen; {model} kann {limit} rufen",
    hint:
        "<{buttons} of them by button; >add button modules, or take a model with a larger directory"
        | "<{buttons} davon über Tasten; >Tastenmodule ergänzen, oder ein Modell mit größerem Verzeichnis nehmen",
    english:
        /// # What it checks
        /// The number of dwellings that each entrance calls against what its door station can call: the
        /// model's `directory`, and the `buttons` of the modules in its chain on top. A model without
        /// `directory` that has no button modules either is not judged.
        ///
        /// # Why it matters
        /// Whoever is not in the directory cannot be called from this door. It shows on the last day, when the
        /// names are entered.
        ///
        /// # Example
        /// The main entrance calls 52 dwellings; its door station has 48 entries and no button module.
        ///
        /// # What to do
        /// Take a door station with a larger directory, add button modules, or let the entrance call its
        /// own block only.
    german:
        /// # Was geprüft wird
        /// Die Zahl der Wohnungen, die jeder Eingang ruft, gegen die, die seine Türstation rufen kann: das
        /// `directory` des Modells, dazu die `buttons` der Module in ihrer Kette. Ein Modell ohne `directory`, das
        /// auch keine Tastenmodule hat, wird nicht beurteilt.
        ///
        /// # Warum es zählt
        /// Wer nicht im Verzeichnis steht, kann von dieser Tür nicht gerufen werden. Es zeigt sich am letzten Tag,
        /// wenn die Namen eingegeben werden.
        ///
        /// # Beispiel
        /// Der Haupteingang ruft 52 Wohnungen; seine Türstation hat 48 Einträge und kein Tastenmodul.
        ///
        /// # Was zu tun ist
        /// Eine Türstation mit größerem Verzeichnis nehmen, Tastenmodule ergänzen, oder den Eingang nur seinen
        /// eigenen Block rufen lassen.
}
