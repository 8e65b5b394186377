//! What a sampled voltage spreads with.

use crate::row::sentences;

sentences! {
    /// A factor of the spread.
    #[derive(Eq, PartialOrd, Ord)]
    pub enum ToleranceFactor {
        SourceVoltage: "source voltage" | "Speisespannung",
        Temperature: "temperature" | "Temperatur",
        MeasuredLoops: "measured loops" | "gemessene Schleifen",
        Drum { cable: String }: "drum of {cable}" | "Trommel von {cable}",
        Length { run: String }: "length of {run}" | "Länge von {run}",
        Batch { model: String }: "batch of {model}" | "Charge von {model}",
        LoadsOneByOne: "loads one by one" | "Lasten einzeln",
    }
}
