//! `no-station`

code! {
    "no-station"
    title: "The site has no station: nothing was judged" | "Die Anlage hat keine Station: nichts wurde beurteilt",
    message:
        "the site has no station yet, so nothing was judged"
        | "Die Anlage hat noch keine Station, es wurde also nichts beurteilt",
    english:
        /// # What it checks
        /// That the site has at least one station: at an entrance, in a dwelling or at a desk.
        ///
        /// # Why it matters
        /// Where nothing is connected every rule holds, which says nothing. A file that has just been begun must
        /// not read as a system that works.
        ///
        /// # Example
        /// A file with its title and its family and nothing else.
        ///
        /// # What to do
        /// Add entrances, dwellings, a supply and the runs between them; `latchline new` writes a site with one of
        /// each.
    german:
        /// # Was geprüft wird
        /// Dass die Anlage mindestens eine Stelle hat: an einem Eingang, in einer Wohnung oder am Empfang.
        ///
        /// # Warum es zählt
        /// Wo nichts angeschlossen ist, wird jede Regel eingehalten, und das sagt nichts. Eine eben begonnene Datei darf
        /// nicht wie eine Anlage aussehen, die funktioniert.
        ///
        /// # Beispiel
        /// Eine Datei mit Titel und Familie und sonst nichts.
        ///
        /// # Was zu tun ist
        /// Eingänge, Wohnungen, ein Netzteil und die Stränge dazwischen ergänzen; `latchline new` schreibt eine
        /// Anlage mit je einem davon.
}
