//! `thin-margin`

code! {
    "thin-margin"
    title: "Hardly any voltage to spare at a device" | "Kaum Spannung übrig an einem Gerät",
    short: "thin margin" | "wenig Reserve",
    message:
        "{element} has only <{bound} >{value} in hand above the {least} that it needs, {state}"
        | "{element} hat nur <{bound} >{value} über den nötigen {least} ({state})",
    label: "<less than {limit}>" | "<weniger als {limit}>",
    hint:
        "nothing must be done; where it is cheap, the next thicker cable on the section that carries most"
        | "nichts muss geschehen; wo es billig ist, die nächstdickere Leitung auf dem Abschnitt, der am meisten trägt",
    measure:
        "The voltage at that device's terminals while as many calls stand as the family permits. It should lie at or above the figure in the finding; a lower one is a joint or another cable than planned."
        | "Die Spannung an den Klemmen dieses Geräts bei so vielen Rufen, wie die Familie zulässt. Sie soll nicht unter der Zahl im Befund liegen; liegt sie darunter, ist es eine schlechte Klemme oder eine andere Leitung als geplant.",
    english:
        /// # What it checks
        /// Devices that hold their limit, but by less than `thin_margin` of the site's policy (1 V if it is
        /// not stated).
        ///
        /// # Why it matters
        /// The tolerances are already in the figure, but a later extension, one bad joint or a reel of
        /// thinner cable is not.
        ///
        /// # Example
        /// A-504 keeps 0.4 V in hand.
        ///
        /// # What to do
        /// Nothing must be done. Where it is cheap, take the next thicker cable on the section that carries most; state
        /// another `thin_margin` under `[policy]` if you judge otherwise.
    german:
        /// # Was geprüft wird
        /// Geräte, die ihren Grenzwert einhalten, aber um weniger als `thin_margin` der Vorgaben der Anlage (1 V,
        /// wenn nichts angegeben ist).
        ///
        /// # Warum es zählt
        /// Die Toleranzen stecken schon im Wert, eine spätere Erweiterung, eine schlechte Verbindung oder eine
        /// Rolle dünnerer Leitung nicht.
        ///
        /// # Beispiel
        /// A-504 hat 0,4 V Reserve.
        ///
        /// # Was zu tun ist
        /// Nichts muss geschehen. Wo es billig ist, auf dem Abschnitt, der am meisten trägt, die nächstdickere
        /// Leitung nehmen; eine andere `thin_margin` unter `[policy]` angeben, wenn Sie es anders beurteilen.
}
