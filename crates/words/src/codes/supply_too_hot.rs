//! `supply-too-hot`

code! {
    "supply-too-hot"
    title: "A cupboard too hot for its supply" | "Ein Schrank, der für sein Netzteil zu warm ist",
    short: "supply too hot" | "Netzteil zu warm",
    message:
        "the cupboard of {element} is at {value}; {model} is made for {limit}<: at this heat it gives {derated}><, and {load} are needed>"
        | "Im Schrank von {element} sind {value}; {model} ist für {limit} gemacht<: Bei dieser Wärme gibt es {derated}><, verlangt sind {load}>",
    label: "<it gives off {heat} itself>" | "<es gibt selbst {heat} ab>",
    hint:
        "let air through, move it to a cooler place, or take one with more in hand"
        | "lüften, an einen kühleren Ort setzen, oder eines mit mehr Reserve nehmen",
    measure:
        "The air temperature in the closed cupboard beside the supply, after an hour in use."
        | "Die Lufttemperatur im geschlossenen Schrank neben dem Netzteil, nach einer Stunde in Betrieb.",
    english:
        /// # What it checks
        /// The stated ambient temperature of a supply's cupboard against the highest at which the supply
        /// gives its rated load. Above that a supply whose model states `derating_per_kelvin` gives so much less of
        /// its rated power for every kelvin; where that is enough for its busiest state it is advice. The heat that
        /// the supply itself leaves in the cupboard in that state is told beside it. Where a temperature is not
        /// stated it is not looked at.
        ///
        /// # Why it matters
        /// Every supply gives less when it is hot and lives half as long for every ten kelvins; a battery
        /// beside it too.
        ///
        /// # Example
        /// A supply for 45 °C in a cupboard under the roof with 55 °C.
        ///
        /// # What to do
        /// A cooler place, vents, a supply for more, or one with so much in hand that its derating suffices.
    german:
        /// # Was geprüft wird
        /// Die angegebene Umgebungstemperatur im Schrank eines Netzteils gegen die höchste, bei der es seine
        /// Nennlast gibt. Darüber gibt ein Netzteil, dessen Modell `derating_per_kelvin` nennt, je Kelvin so viel
        /// weniger von seiner Nennleistung; genügt das für seinen vollsten Zustand, ist es ein Hinweis. Die Wärme,
        /// die das Netzteil in diesem Zustand selbst im Schrank lässt, steht daneben. Wo eine Temperatur nicht
        /// angegeben ist, wird sie nicht betrachtet.
        ///
        /// # Warum es zählt
        /// Jedes Netzteil gibt weniger, wenn es heiß ist, und lebt je zehn Kelvin halb so lange; eine Batterie
        /// daneben auch.
        ///
        /// # Beispiel
        /// Ein Netzteil für 45 °C in einem Schrank unter dem Dach mit 55 °C.
        ///
        /// # Was zu tun ist
        /// Ein kühlerer Ort, Lüftung, ein Netzteil für mehr, oder eines mit so viel Reserve, dass seine Minderung
        /// genügt.
}
