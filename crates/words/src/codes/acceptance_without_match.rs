//! `acceptance-without-match`

code! {
    "acceptance-without-match"
    title: "An accepted finding that does not occur" | "Eine Akzeptanz passt auf keinen Befund mehr",
    message:
        "this acceptance of {code}<, {element},> matches no finding"
        | "Nichts passt auf diese Akzeptanz von {code}<, {element}>",
    label: "matches nothing" | "passt zu nichts",
    hint: "remove it, or correct its code or element" | "entfernen, oder Code oder Element berichtigen",
    english:
        /// # What it checks
        /// That every `[[accept]]` entry of the site file still matches a finding.
        ///
        /// # Why it matters
        /// An acceptance that matches nothing hides nothing today, but it would hide the next finding of
        /// its code and element unread. It is also a sign that a name was changed.
        ///
        /// # Example
        /// `A-R1` was renamed `A-W1`; its accepted finding shows up again and the old acceptance stands idle.
        ///
        /// # What to do
        /// Remove the entry, or correct its code or element.
    german:
        /// # Was geprüft wird
        /// Dass jeder Eintrag `[[accept]]` der Anlagendatei noch zu einem Befund passt.
        ///
        /// # Warum es zählt
        /// Eine Akzeptanz, die zu nichts passt, verdeckt heute nichts; sie würde aber den nächsten Befund ihres
        /// Codes und Elements ungelesen verdecken. Sie ist auch ein Zeichen, dass ein Name geändert wurde.
        ///
        /// # Beispiel
        /// `A-R1` heißt jetzt `A-W1`; sein akzeptierter Befund erscheint wieder, und die alte Akzeptanz steht
        /// nutzlos da.
        ///
        /// # Was zu tun ist
        /// Den Eintrag entfernen, oder seinen Code oder sein Element berichtigen.
}
