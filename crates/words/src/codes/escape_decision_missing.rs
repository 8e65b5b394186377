//! `escape-decision-missing`

code! {
    "escape-decision-missing"
    title: "Whether a door is a way out is not decided" | "Ob eine Tür Fluchtweg ist, ist nicht entschieden",
    short: "escape not decided" | "Fluchtweg offen",
    message:
        "whether people escape through {element} is stated, but not who decided it and when: add {missing}"
        | "ob {element} Fluchtweg ist, ist angegeben, aber nicht, wer das wann entschieden hat: {missing} ergänzen",
    label: "<add {missing}>" | "<{missing} ergänzen>",
    hint:
        "ask whoever answers for the building's fire safety, and write down name or role and date"
        | "fragen, wer für den Brandschutz des Gebäudes einsteht, und Namen oder Rolle und Datum festhalten",
    english:
        /// # What it checks
        /// For every door with a lock, gate drives outside the buildings aside: that `escape_route` says whether people escape through it. Without it, and with
        /// `escape_route = "not known"`, the door is not judged as a way out, whatever its lock. Where it is said, that `escape_decided_by` and
        /// `escape_decided_on` name who decided it and when: until then the decision is not judged to stand, and neither is the site. That matters most where it is said to be none, since then nothing else judges the door.
        ///
        /// # Why it matters
        /// A lock that is right at a side door traps people behind a main one. Which of them people run for is not for whoever
        /// wires the bell to decide, nor for a default.
        ///
        /// # Example
        /// `escape_route = true`, `escape_decided_by = "fire risk assessor"`, `escape_decided_on = 2026-03-02`.
        ///
        /// # What to do
        /// Ask, write down the answer, and check again: other rules judge the lock by it.
    german:
        /// # Was geprüft wird
        /// Für jede Tür mit einem Schloss, Torantriebe außerhalb der Gebäude ausgenommen: dass `escape_route` sagt, ob Menschen durch sie fliehen. Ohne diese Angabe, und
        /// bei `escape_route = "not known"`, wird die Tür nicht als Fluchtweg beurteilt, welches Schloss sie auch hat. Wo es angegeben ist, dass
        /// `escape_decided_by` und `escape_decided_on` nennen, wer es wann entschieden hat: Bis dahin gilt die Entscheidung als nicht beurteilt, und die Anlage auch. Das zählt am meisten, wo sie keiner sein soll, da sonst nichts die Tür beurteilt.
        ///
        /// # Warum es zählt
        /// Ein Schloss, das an einer Nebentür richtig ist, sperrt hinter einer Haupttür Menschen ein. Zu welcher sie laufen, entscheidet
        /// weder, wer die Klingel anschließt, noch eine Voreinstellung.
        ///
        /// # Beispiel
        /// `escape_route = true`, `escape_decided_by = "Brandschutzbeauftragter"`, `escape_decided_on = 2026-03-02`.
        ///
        /// # Was zu tun ist
        /// Fragen, die Antwort festhalten und neu prüfen: andere Regeln beurteilen das Schloss danach.
}
