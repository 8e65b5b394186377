//! `revision-twice`

code! {
    "revision-twice"
    title: "Two revisions have the same mark" | "Zwei Stände haben dasselbe Zeichen",
    message:
        "revision \"{mark}\" is stated twice: nobody can tell which papers are the newer ones"
        | "Den Stand „{mark}“ gibt es zweimal: Niemand erkennt, welche Blätter die neueren sind",
    label: "this is the second" | "dies ist der zweite",
    hint:
        "give the newer one the next letter or number"
        | "dem neueren den nächsten Buchstaben oder die nächste Nummer geben",
    english:
        /// The mark of a revision stands on every sheet of the pack, so that old paper is told from new. Two states with one mark cannot be told apart.
        ///
        /// Example: two `[[revision]]` with `mark = "B"`. Give the second the mark C. The site is judged all the same.
    german:
        /// Das Zeichen des Stands steht auf jedem Blatt der Mappe, damit altes Papier von neuem zu unterscheiden ist. Zwei Stände mit einem Zeichen sind es nicht.
        ///
        /// Beispiel: zweimal `[[revision]]` mit `mark = "B"`. Dem zweiten das Zeichen C geben. Die Anlage wird trotzdem beurteilt.
}
