//! `address-repeated`

code! {
    "address-repeated"
    title: "Buildings with the number of another one" | "Gebäude mit der Nummer eines anderen",
    short: "number repeated" | "Nummer wiederholt",
    message:
        "{buildings:building has|buildings have} the number of another one, on a bus that no wire joins to that one's: {numbers}"
        | "{buildings:Gebäude hat|Gebäude haben} die Nummer eines anderen, an einem Bus, den keine Ader mit dessen Bus verbindet: {numbers}",
    english:
        /// There are more buildings than the family can number. Those beyond take the lowest number that no building on the same bus has:
        /// stations on buses that no wire joins cannot hear each other, so the same number does no harm.
        ///
        /// Join such buses later, and the numbers collide. Whoever sets the switches must know which bus a station hangs on.
    german:
        /// Es sind mehr Gebäude, als die Familie nummerieren kann. Die übrigen nehmen die kleinste Nummer, die kein Gebäude am selben Bus hat:
        /// Stationen an Bussen, die keine Ader verbindet, hören einander nicht, gleiche Nummern schaden also nicht.
        ///
        /// Werden solche Busse später verbunden, stoßen die Nummern zusammen. Wer die Schalter stellt, muss wissen, an welchem Bus eine Station hängt.
}
