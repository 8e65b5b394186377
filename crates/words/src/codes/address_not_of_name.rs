//! `address-not-of-name`

code! {
    "address-not-of-name"
    title: "Dwellings set to another number than their name has" | "Wohnungen mit anderer Nummer als im Namen",
    short: "number not of its name" | "Nummer passt nicht",
    message:
        "{dwellings:dwelling is|dwellings are} set to another number than the name has: {numbers}"
        | "{dwellings:Wohnung hat|Wohnungen haben} eine andere Nummer als im Namen: {numbers}",
    hint:
        "is that what visitors and residents shall use? Else state the numbers: number = ...; all of them: latchline addresses"
        | "sollen Besucher und Bewohner diese benutzen? Sonst die Nummern angeben: number = ...; alle: latchline addresses",
    english:
        /// # What it checks
        /// Dwellings whose name has a number that their address does not have, because the family has no such number or another dwelling
        /// has it already. They get the lowest free one. A stated `number` is never told, nor a name without a number.
        ///
        /// # Why it matters
        /// The resident of T-101 is called by dialling 1, and whoever sets the switches by the door plate sets the wrong ones.
        ///
        /// # Example
        /// T-101 in a family whose numbers end at 99 is set to 1; 27A and 27B cannot both be 27.
        ///
        /// # What to do
        /// Agree on the numbers with the client and state them, or name the dwellings by the numbers that they get.
    german:
        /// # Was geprüft wird
        /// Wohnungen, deren Name eine Nummer hat, die ihre Adresse nicht hat, weil die Gerätefamilie sie nicht kennt oder eine andere Wohnung
        /// sie schon hat. Sie erhalten die niedrigste freie. Eine angegebene `number` wird nie gemeldet, ein Name ohne Nummer auch nicht.
        ///
        /// # Warum es zählt
        /// Der Bewohner von T-101 wird mit der Wahl 1 gerufen, und wer die Schalter nach dem Türschild stellt, stellt sie falsch.
        ///
        /// # Beispiel
        /// T-101 in einer Familie, deren Nummern bei 99 enden, steht auf 1; 27A und 27B können nicht beide 27 sein.
        ///
        /// # Was zu tun ist
        /// Die Nummern mit dem Auftraggeber vereinbaren und angeben, oder die Wohnungen nach den Nummern benennen, die sie bekommen.
}
