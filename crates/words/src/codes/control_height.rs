//! `control-height`

code! {
    "control-height"
    title: "Controls out of reach for some" | "Bedienelemente außer Reichweite für manche",
    short: "controls out of reach" | "Bedienhöhe unpassend",
    message:
        "the controls of {element} are {value} above the ground; within reach of all are {least} to {most}"
        | "Die Bedienelemente von {element} liegen {value} über dem Boden; für alle erreichbar sind {least} bis {most}",
    hint: "<{source}>" | "<{source}>",
    english:
        /// # What it checks
        /// The stated height of a door station's controls (`control_height`) against the range that a
        /// publication of the site's country gives. United States 0.38 to 1.22 m (2010 ADA Standards 308.2.1
        /// and 308.3.1). As others quote them: Italy 1.10 to 1.30 m (DM 236/1989), France 0.90 to 1.30 m (order of 24
        /// December 2015), Switzerland 0.80 to 1.10 m (SIA 500), Norway 0.80 to 1.10 m (advice on TEK17), Australia 0.90 to
        /// 1.25 m (AS 1428.1, touch pads). From memory, not yet confirmed: England 0.90 to 1.00 m (Approved Document M
        /// volume 1), Germany 0.85 to 1.05 m (DIN 18040-2), Spain 0.80 to 1.20 m; elsewhere 0.80 to 1.10 m (ISO
        /// 21542). A height that is not stated is not looked at.
        ///
        /// # Why it matters
        /// A panel mounted for a standing eye is out of reach from a wheelchair, and moving it later means a
        /// new hole in the facade.
        ///
        /// # Example
        /// 1.45 m in the United States: more than 1.22 m.
        ///
        /// # What to do
        /// Mount the buttons within the range; a camera can sit higher if the module allows it. The local
        /// code and the access consultant prevail.
    german:
        /// # Was geprüft wird
        /// Die angegebene Höhe der Bedienelemente einer Türstation (`control_height`) gegen den Bereich, den eine
        /// Veröffentlichung des Landes gibt. Vereinigte Staaten 0,38 bis 1,22 m (2010 ADA Standards 308.2.1 und
        /// 308.3.1). Nach Zitaten anderer: Italien 1,10 bis 1,30 m (DM 236/1989), Frankreich 0,90 bis 1,30 m
        /// (Erlass vom 24. Dezember 2015), Schweiz 0,80 bis 1,10 m (SIA 500), Norwegen 0,80 bis 1,10 m (Hinweise zu
        /// TEK17), Australien 0,90 bis 1,25 m (AS 1428.1, Tastflächen). Aus dem Gedächtnis, noch nicht bestätigt:
        /// England 0,90 bis 1,00 m (Approved Document M, Band 1), Deutschland 0,85 bis 1,05 m (DIN 18040-2),
        /// Spanien 0,80 bis 1,20 m; sonst 0,80 bis 1,10 m (ISO 21542). Eine nicht angegebene Höhe wird nicht
        /// betrachtet.
        ///
        /// # Warum es zählt
        /// Ein Tableau in Augenhöhe eines Stehenden ist vom Rollstuhl aus nicht zu erreichen, und es später zu
        /// versetzen heißt ein neues Loch in der Fassade.
        ///
        /// # Beispiel
        /// 1,45 m in den Vereinigten Staaten: mehr als 1,22 m.
        ///
        /// # Was zu tun ist
        /// Die Tasten im Bereich anbringen; eine Kamera darf höher sitzen, wenn das Modul es zulässt. Die örtliche
        /// Regel und der Fachplaner für Barrierefreiheit gehen vor.
}
