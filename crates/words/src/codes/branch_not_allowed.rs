//! `branch-not-allowed`

code! {
    "branch-not-allowed"
    title: "A branch in a family whose chains may not divide" | "Ein Abzweig in einer Familie, deren Ketten sich nicht teilen dürfen",
    short: "branch not allowed" | "Abzweig nicht erlaubt",
    message:
        "{element} is a branch into runs {runs}; chains of the family {family} may not divide"
        | "{element} verzweigt in die Stränge {runs}; Ketten der Gerätefamilie {family} dürfen sich nicht teilen",
    label: "divides here" | "teilt sich hier",
    hint: "use a branch box or another port" | "eine Abzweigdose oder einen anderen Abgang nehmen",
    english:
        /// # What it checks
        /// In a family without branches (`branches = false`), that every chain runs from its port to its end
        /// without dividing, at stations or at branch boxes.
        ///
        /// # Why it matters
        /// A branch reflects the signal: a picture gets ghosts, data gets lost, and the last station beyond the
        /// branch suffers first. DC measurements do not show it.
        ///
        /// # Example
        /// From A-102 one cable goes on to A-103 and another one to A-104.
        ///
        /// # What to do
        /// Loop the cable in and out of every station in turn, or take another port for the branch.
    german:
        /// # Was geprüft wird
        /// In einer Gerätefamilie ohne Abzweige (`branches = false`): dass jede Kette von ihrem Abgang bis zum Ende
        /// läuft, ohne sich an Stationen oder Abzweigdosen zu teilen.
        ///
        /// # Warum es zählt
        /// Ein Abzweig reflektiert das Signal: Ein Bild bekommt Geister, Daten gehen verloren, und die letzte
        /// Station hinter dem Abzweig leidet zuerst. Gleichstrommessungen zeigen es nicht.
        ///
        /// # Beispiel
        /// Von A-102 geht eine Leitung zu A-103 und eine andere zu A-104.
        ///
        /// # Was zu tun ist
        /// Die Leitung durch jede Station der Reihe nach schleifen, oder für den Abzweig einen anderen Abgang
        /// nehmen.
}
