//! `alarm-tells-nobody`

code! {
    "alarm-tells-nobody"
    title: "An alarm that nobody hears" | "Eine Meldung, die niemand hört",
    short: "alarm tells nobody" | "Meldung ohne Empfänger",
    message:
        "the {kind} input of {element} tells nobody"
        | "Die Meldung ({kind}) von {element} geht an niemanden",
    hint:
        "<add tells for input {number}: >the management station, or dwellings"
        | "<tells bei Eingang {number} ergänzen: >die Zentrale, oder Wohnungen",
    english:
        /// # What it checks
        /// Alarm inputs for tamper, duress and an open door that tell nobody. The input of a fire alarm releases the
        /// door's locks and need tell no station. Whether a wire leads to those who are told is checked by
        /// `call-across-buses`.
        ///
        /// # Why it matters
        /// The contact is wired, the station knows, and no one hears of it.
        ///
        /// # Example
        /// `alarm_inputs = [{ kind = "duress" }]` without `tells`.
        ///
        /// # What to do
        /// Name the management station or the dwellings that are to be told (`tells = ["management"]`).
    german:
        /// # Was geprüft wird
        /// Meldeeingänge für Sabotage, Überfall und offene Tür, die niemandem melden. Der Eingang einer
        /// Brandmeldeanlage gibt die Schlösser der Tür frei und muss keiner Station melden. Ob eine Leitung zu
        /// denen führt, denen gemeldet wird, prüft `call-across-buses`.
        ///
        /// # Warum es zählt
        /// Der Kontakt ist verdrahtet, die Station weiß es, und niemand hört davon.
        ///
        /// # Beispiel
        /// `alarm_inputs = [{ kind = "duress" }]` ohne `tells`.
        ///
        /// # Was zu tun ist
        /// Die Zentrale oder die Wohnungen nennen, denen gemeldet werden soll (`tells = ["management"]`).
}
