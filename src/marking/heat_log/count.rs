use super::plan::PlannedPart;
use super::timeline::Counted;

/// Heats as they come out.
#[derive(Debug)]
pub(super) struct Count {
    /// Whether somebody watched all along.
    pub is_watched: bool,
    plans_welds: bool,
    all: u32,
    welds: u32,
}

impl Count {
    pub fn of(parts: &[PlannedPart]) -> Self {
        Self {
            is_watched: true,
            plans_welds: parts.iter().any(|part| part.weld && part.count > 0),
            all: 0,
            welds: 0,
        }
    }

    pub fn heat(&mut self, weld: bool) {
        self.all = self.all.saturating_add(1);
        self.welds = self.welds.saturating_add(u32::from(weld));
    }

    /// Where none was seen, none was counted: nobody makes a shoe without a heat.
    pub fn heats(&self) -> Counted {
        match self.all {
            0 => Counted::NotCounted,
            all if self.is_watched => Counted::Known(all),
            all => Counted::AtLeast(all),
        }
    }

    /// Where welds were planned and none was seen, nobody has said which heats they were.
    pub fn weld_heats(&self) -> Counted {
        let is_known = matches!(self.heats(), Counted::Known(_));
        match self.welds {
            0 if self.plans_welds || !is_known => Counted::NotCounted,
            welds if is_known => Counted::Known(welds),
            welds => Counted::AtLeast(welds),
        }
    }
}
