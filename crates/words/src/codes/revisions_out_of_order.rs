//! `revisions-out-of-order`

code! {
    "revisions-out-of-order"
    title: "The revisions are not in the order of their dates" | "Die Stände stehen nicht in der Reihenfolge ihrer Daten",
    message:
        "revision \"{mark}\" of {date} stands after \"{other}\" of {other_date}"
        | "Stand „{mark}“ vom {date} steht hinter „{other}“ vom {other_date}",
    label: "older than the one before" | "älter als der davor",
    hint:
        "mend the date, or put the oldest first: the last one is what every sheet says"
        | "das Datum berichtigen oder den ältesten zuerst schreiben: Der letzte steht auf jedem Blatt",
    english:
        /// The revisions stand with the oldest first, and the last one is what the title blocks say. One that is older than those before it has a wrong date, or the wrong place.
        ///
        /// Example: revision A of 2026-11-02, then B of 2026-03-02. The site is judged all the same.
    german:
        /// Die Stände stehen mit dem ältesten zuerst, und der letzte steht in den Schriftfeldern. Einer, der älter ist als die davor, hat ein falsches Datum oder den falschen Platz.
        ///
        /// Beispiel: Stand A vom 2026-11-02, dann B vom 2026-03-02. Die Anlage wird trotzdem beurteilt.
}
