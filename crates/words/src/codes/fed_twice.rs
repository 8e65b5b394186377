//! `fed-twice`

code! {
    "fed-twice"
    title: "Something is reached by two runs" | "Etwas wird von zwei Strängen erreicht",
    message:
        "{name} is reached twice<: by run {other_run} and by run {run}>< in one run, {twice_in}>"
        | "{name} wird zweimal erreicht<: von Strang {other_run} und von Strang {run}>< in einem Strang, {twice_in}>",
    label: "reached again here" | "hier noch einmal erreicht",
    hint:
        "remove one of the two, or put the right name in its place; rings and dual feeds are not solved"
        | "eines von beiden entfernen oder den richtigen Namen einsetzen; Ringe und doppelte Speisungen werden nicht gerechnet",
    english:
        /// A station, the input of a box or a signal link is the stop of two sections. It would be fed from two sides; dual feeds and rings are not solved, because the current divides between the two ways. Both places are shown.
        ///
        /// Remove one of the two, or, if a second run goes on from a station, let it start there with `from`.
    german:
        /// Eine Station, der Eingang eines Verteilers oder ein Signaleingang ist Halt zweier Abschnitte. Er würde von zwei Seiten gespeist; doppelte Speisungen und Ringe werden nicht gerechnet, weil sich der Strom auf die zwei Wege teilt. Beide Stellen werden gezeigt.
        ///
        /// Einen von beiden entfernen, oder, wenn ein zweiter Strang von einer Station weitergeht, ihn dort mit `from` beginnen lassen.
}
