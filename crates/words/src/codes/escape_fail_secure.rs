//! `escape-fail-secure`

code! {
    "escape-fail-secure"
    title: "A lock on an escape route stays shut without power" | "Ein Schloss am Fluchtweg bleibt ohne Strom zu",
    short: "shut without power" | "ohne Strom zu",
    message:
        "the lock {lock} of {element}, on an escape route, stays shut without power"
        | "Das Schloss {lock} von {element}, an einem Fluchtweg, bleibt ohne Strom zu",
    hint:
        "take a lock that opens without power, or one with a mechanical way out; the responsible person decides"
        | "ein Schloss nehmen, das ohne Strom öffnet, oder eines mit mechanischer Fluchtmöglichkeit; die verantwortliche Person entscheidet",
    measure:
        "Nothing with a meter: switch the power off and try from inside whether the door opens."
        | "Nichts mit dem Messgerät: den Strom abschalten und von innen versuchen, ob die Tür aufgeht.",
    english:
        /// # What it checks
        /// Locks on an escape route that stay shut without power (fail-secure) and for which no mechanical
        /// means of escape (handle, push pad, bar) is stated.
        ///
        /// # Why it matters
        /// In a power cut, which is when a building is left in haste, such a door does not open from inside.
        ///
        /// # Example
        /// A fail-secure motor lock on the only way out, with an exit button.
        ///
        /// # What to do
        /// Furniture that retracts the latch mechanically from inside, or a lock that opens without power.
        /// Whether the door is on an escape route and what it needs is decided by the responsible person and
        /// the local code; this is no certificate either way. Where the means are there, state
        /// `mechanical_escape = true`.
    german:
        /// # Was geprüft wird
        /// Schlösser an einem Fluchtweg, die ohne Strom zu bleiben (Arbeitsstrom) und für die keine mechanische
        /// Fluchtmöglichkeit (Drücker, Stoßplatte, Stange) angegeben ist.
        ///
        /// # Warum es zählt
        /// Bei einem Stromausfall, also dann, wenn ein Gebäude in Eile verlassen wird, öffnet eine solche Tür von
        /// innen nicht.
        ///
        /// # Beispiel
        /// Ein Motorschloss nach dem Arbeitsstromprinzip am einzigen Fluchtweg, mit einem Türöffnertaster.
        ///
        /// # Was zu tun ist
        /// Beschläge, die die Falle von innen mechanisch zurückziehen, oder ein Schloss, das ohne Strom öffnet. Ob
        /// die Tür an einem Fluchtweg liegt und was sie braucht, entscheiden die verantwortliche Person und die
        /// örtliche Regel; dies ist in keinem Fall ein Nachweis. Wo die Möglichkeit vorhanden ist,
        /// `mechanical_escape = true` angeben.
}
