//! `delayed-egress-too-long`

code! {
    "delayed-egress-too-long"
    title: "A delay at a way out that needs permission" | "Eine Verzögerung am Ausgang, die eine Genehmigung braucht",
    short: "exit delay too long" | "Ausgang verzögert",
    message:
        "the lock {lock} of {element} delays the way out by {value}<; at most {limit} is allowed>"
        | "Das Schloss {lock} von {element} verzögert den Fluchtweg um {value}<; erlaubt sind höchstens {limit}>",
    hint:
        "<{source}: >the local code and the responsible person decide"
        | "<{source}: >die örtliche Regel und die verantwortliche Person entscheiden",
    english:
        /// # What it checks
        /// The stated delay of delayed egress against what published rules of the site's country allow:
        /// United States 15 s, 30 s with the authority's permission (NFPA 101 7.2.1.6.1); countries with
        /// European standards 15 s, and 180 s as a second stage (EN 13637, from memory). A delay that needs
        /// permission is a warning, one beyond that an error. Where no such rule is known, every delay is a
        /// warning.
        ///
        /// # Why it matters
        /// A delay at a way out is the exception, allowed only with alarm, marking, and release by fire
        /// alarm and power loss.
        ///
        /// # Example
        /// A delay of 30 s at the garage exit of a building in the United States.
        ///
        /// # What to do
        /// Shorten it, or obtain the authority's word in writing and accept the finding with it. The local
        /// code and the responsible person decide.
    german:
        /// # Was geprüft wird
        /// Die angegebene Verzögerung eines verzögerten Ausgangs gegen das, was veröffentlichte Regeln des Landes
        /// erlauben: Vereinigte Staaten 15 s, 30 s mit Erlaubnis der Behörde (NFPA 101 7.2.1.6.1); Länder mit
        /// europäischen Normen 15 s, und 180 s als zweite Stufe (EN 13637, aus dem Gedächtnis). Eine Verzögerung,
        /// die eine Erlaubnis braucht, ist eine Warnung, eine darüber ein Fehler. Wo keine solche Regel bekannt
        /// ist, ist jede Verzögerung eine Warnung.
        ///
        /// # Warum es zählt
        /// Eine Verzögerung am Fluchtweg ist die Ausnahme, erlaubt nur mit Alarm, Beschriftung und Freigabe bei
        /// Brandalarm und Stromausfall.
        ///
        /// # Beispiel
        /// Eine Verzögerung von 30 s am Garagenausgang eines Gebäudes in den Vereinigten Staaten.
        ///
        /// # Was zu tun ist
        /// Sie verkürzen, oder das Wort der Behörde schriftlich einholen und den Befund damit akzeptieren. Die
        /// örtliche Regel und die verantwortliche Person entscheiden.
}
