//! `site-too-large`

code! {
    "site-too-large"
    title: "The site is too large" | "Die Anlage ist zu groß",
    message:
        "the site is too large: entrances list more than {limit} dwellings in all"
        | "Die Anlage ist zu groß: Die Eingänge führen zusammen mehr als {limit} Wohnungen auf",
    hint: "divide the site" | "die Anlage teilen",
    english:
        /// All entrances and management stations together would list more than the stated number of dwellings that they can call. No real site does; if yours does, divide it.
    german:
        /// Alle Eingänge und Zentralen zusammen würden mehr Wohnungen aufführen, die sie rufen können, als die genannte Zahl. Keine wirkliche Anlage tut das; tut Ihre es, teilen Sie sie.
}
