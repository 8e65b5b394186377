//! `not-wired`

code! {
    "not-wired"
    title: "No run reaches this" | "Kein Strang führt hierher",
    message: "no run reaches the {kind} {name}" | "Kein Strang erreicht {name} ({kind})",
    label: "not wired" | "nicht verdrahtet",
    hint:
        "add it to the \"to\" of a run that leads back to a supply"
        | "in das „to“ eines Strangs aufnehmen, der zu einem Netzteil zurückführt",
    english:
        /// Every station and box must be the stop of a run that leads back to a supply, or it is dead.
        ///
        /// Example: a dwelling that was added without adding it to the `to` of a run.
    german:
        /// Jede Station und jeder Verteiler muss Halt eines Strangs sein, der zu einem Netzteil zurückführt, sonst ist das Gerät tot.
        ///
        /// Beispiel: eine Wohnung, die ergänzt wurde, ohne sie in das `to` eines Strangs aufzunehmen.
}
