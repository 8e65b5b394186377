//! `no-entrance`

code! {
    "no-entrance"
    title: "The site has no entrance" | "Die Anlage hat keinen Eingang",
    message:
        "the site has no entrance for its {dwellings:dwelling|dwellings}"
        | "Die Anlage hat keinen Eingang für ihre {dwellings:Wohnung|Wohnungen}",
    english:
        /// # What it checks
        /// That the site has an entrance.
        ///
        /// # Why it matters
        /// Without a door station nobody rings and no lock is judged. It is usually a table that was left out
        /// of the file.
        ///
        /// # Example
        /// A file with dwellings and runs, but without `[entrances]`.
        ///
        /// # What to do
        /// Add the entrances. Accept the finding for a house-internal system.
    german:
        /// # Was geprüft wird
        /// Dass die Anlage einen Eingang hat.
        ///
        /// # Warum es zählt
        /// Ohne Türstation läutet niemand, und kein Schloss wird beurteilt. Meist fehlt eine Tabelle in der Datei.
        ///
        /// # Beispiel
        /// Eine Datei mit Wohnungen und Strängen, aber ohne `[entrances]`.
        ///
        /// # Was zu tun ist
        /// Die Eingänge ergänzen. Bei einer hausinternen Anlage den Befund akzeptieren.
}
