//! `entrance-without-lock`

code! {
    "entrance-without-lock"
    title: "An entrance without a lock" | "Ein Eingang ohne Schloss",
    short: "no lock" | "kein Schloss",
    message: "entrance {element} has no lock" | "Eingang {element} hat kein Schloss",
    hint:
        "add \"lock\", or accept that it opens by hand"
        | "lock ergänzen, oder akzeptieren, dass er von Hand geöffnet wird",
    english:
        /// # What it checks
        /// Entrances for which no lock is stated.
        ///
        /// # Why it matters
        /// Residents can answer the door but not open it. Where there is a lock after all, its voltage and its
        /// role as a way of escape are not judged as long as the file does not know of it.
        ///
        /// # Example
        /// The bin store has a door station and an ordinary cylinder lock.
        ///
        /// # What to do
        /// State the lock. If the door is only meant for speaking, accept the finding.
    german:
        /// # Was geprüft wird
        /// Eingänge, für die kein Schloss angegeben ist.
        ///
        /// # Warum es zählt
        /// Bewohner können antworten, aber nicht öffnen. Gibt es doch ein Schloss, werden seine Spannung und seine
        /// Rolle als Fluchtweg nicht beurteilt, solange die Datei nichts von ihm weiß.
        ///
        /// # Beispiel
        /// Der Müllraum hat eine Türstation und ein gewöhnliches Zylinderschloss.
        ///
        /// # Was zu tun ist
        /// Das Schloss angeben. Dient die Tür nur zum Sprechen, den Befund akzeptieren.
}
