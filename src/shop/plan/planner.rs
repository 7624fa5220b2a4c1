//! From the section's cuts to operations.

use super::operation::is_turned;
use super::{
    BoreWork, Depths, Holding, Measured, Operation, Outside, PinReading, PlanError, Speed, Tapping,
    TenonWork, ThreadWork, Tight, TrialFit, Work,
};
use crate::quantity::Length;
use crate::scene::Room;
use crate::section::{
    Bore, Cut, Depth, Means, Mouth, Point, Section, Sequence, Thread, ToolKind, Workpiece, Workshop,
};
use crate::shop::choose::{Choice, Taken};
use crate::size::SizeId;

/// How much a drill may open a hole, on the diameter, before its lips are guided by material again
/// and it stops to grab (common practice, no source).
const OPENS_BY: Length = Length::mm(1.5);

/// Everything that a step may ask for.
pub(super) struct Planner<'a> {
    pub section: &'a Section,
    pub choices: &'a [Choice],
    pub workshop: &'a Workshop,
    pub rooms: &'a [Room],
}

/// What has been done so far.
struct Progress {
    piece: Workpiece,
    holding: Holding,
    held_anew: bool,
    operations: Vec<Operation>,
}

impl Progress {
    /// Holds the work otherwise from now on.
    fn hold(&mut self, holding: Holding) {
        self.held_anew |= self.holding != holding;
        self.holding = holding;
    }
}

impl Planner<'_> {
    /// All steps, from the rehearsal to the last look.
    pub fn operations(&self) -> Result<Vec<Operation>, PlanError> {
        let mut progress = Progress {
            piece: Workpiece::rod(self.section),
            holding: Holding::Offcut,
            held_anew: true,
            operations: Vec::new(),
        };
        self.add(&mut progress, Work::Rehearse, Mouth::Front, None);
        progress.hold(self.rod());
        let mut spotted: Vec<Mouth> = Vec::new();
        let mut tried = None;
        for cut in self.section.cuts() {
            self.before(&cut, &mut progress, &mut spotted, &mut tried)?;
            let (work, face) = self.work(&cut, &progress.piece)?;
            progress.piece.take(&cut);
            self.add(&mut progress, work, face, Some(cut.clone()));
            self.after(&cut, &mut progress, tried);
        }
        self.add(&mut progress, Work::Finish, Mouth::Front, None);
        Ok(progress.operations)
    }

    /// The steps that a cut needs before it.
    fn before(
        &self,
        cut: &Cut,
        progress: &mut Progress,
        spotted: &mut Vec<Mouth>,
        tried: &mut Option<TrialFit>,
    ) -> Result<(), PlanError> {
        let sequence = self.section.sequence();
        match cut {
            Cut::Face { .. } | Cut::Tap(_) if sequence == Sequence::TenonFirst => {
                self.seat(progress);
            }
            Cut::Bore(bore)
                if sequence == Sequence::TenonFirst
                    && bore.mouth == Mouth::Front
                    && bore.depth != Depth::Through =>
            {
                self.seat(progress);
            }
            Cut::Tenon(_) => self.reverse(progress),
            Cut::Bore(bore) if bore.mouth == Mouth::Back && bore.depth != Depth::Through => {
                self.reverse(progress);
            }
            Cut::Outside(_) => self.support(progress),
            _ => {}
        }
        if let Cut::Bore(bore) = cut {
            let mouth = self.side(bore);
            let open = progress.piece.mouth(mouth) > Length::ZERO;
            let drilled = bore.depth != Depth::To(Length::ZERO);
            if drilled && !open && !spotted.contains(&mouth) {
                spotted.push(mouth);
                let within = bore.diameter;
                self.add(progress, Work::Spot { mouth, within }, mouth, None);
            }
        }
        if let Cut::Tap(_) = cut {
            *tried = TrialFit::of(self.section, &progress.piece)?;
            if let Some(fit) = *tried {
                self.add(progress, Work::TryUnit(fit), Mouth::Front, None);
            }
        }
        Ok(())
    }

    /// The steps that a cut needs behind it.
    fn after(&self, cut: &Cut, progress: &mut Progress, tried: Option<TrialFit>) {
        if let (Cut::Tap(_), Some(fit)) = (cut, tried) {
            self.add(progress, Work::TryAgain(fit), Mouth::Front, None);
        }
    }

    /// Into the bushing, unless it is there.
    fn seat(&self, progress: &mut Progress) {
        if progress.holding == Holding::Bushing {
            return;
        }
        if let Some(bushing) = self.section.bushing() {
            progress.hold(Holding::Bushing);
            self.add(progress, Work::Seat(Box::new(bushing)), Mouth::Front, None);
        }
    }

    /// The other end out, unless it is: where the bores come first the tenon's end is out last.
    fn reverse(&self, progress: &mut Progress) {
        let Sequence::BoresFirst(why) = self.section.sequence() else { return };
        let reversed = self.rod_reversed();
        if progress.holding != reversed {
            progress.hold(reversed);
            self.add(progress, Work::Reverse(why), Mouth::Back, None);
        }
    }

    /// What supports the work while its outside is turned.
    fn support(&self, progress: &mut Progress) {
        if matches!(self.section.sequence(), Sequence::BoresFirst(_)) {
            let bores = self.section.bores.iter().filter(|bore| bore.depth == Depth::Through);
            let narrow = bores.map(|bore| bore.limits.min()).reduce(Length::min);
            let tenon = self.section.tenon.thread.limits.major.max();
            progress.hold(narrow.map_or(Holding::SplitBushing { bore: tenon }, |diameter| {
                Holding::Mandrel { diameter }
            }));
        }
        if let Some(plug) = self.section.lip_plug() {
            self.add(progress, Work::LipPlug(Box::new(plug)), Mouth::Front, None);
        }
    }

    fn rod(&self) -> Holding {
        let diameter = self.section.blank.diameter;
        let holdings = &self.workshop.holdings;
        let chuck = holdings.chuck.clone();
        Holding::Rod { diameter, collet: holdings.collet(diameter), chuck }
    }

    fn rod_reversed(&self) -> Holding {
        Holding::RodReversed { chuck: self.workshop.holdings.chuck.clone() }
    }

    /// The face by which a hole's tool comes in: one that goes through is drilled while the tenon's
    /// end is out.
    fn side(&self, bore: &Bore) -> Mouth {
        let first = self.section.sequence() == Sequence::TenonFirst;
        match bore.depth {
            Depth::Through if first => Mouth::Back,
            Depth::Through => Mouth::Front,
            _ => bore.mouth,
        }
    }

    /// What a cut is to whoever does it, and the face that it is measured from.
    fn work(&self, cut: &Cut, piece: &Workpiece) -> Result<(Work, Mouth), PlanError> {
        let section = self.section;
        let back = section.length();
        let sanding = section.allowance.sanding;
        let from_back = |thread: &Thread| {
            let [from, to] = thread.full();
            [back - to, back - from]
        };
        Ok(match cut {
            Cut::Square { length } => {
                let rod = section.blank.length;
                let rod = (rod - *length > crate::section::LEAST_STEP).then_some(rod);
                (Work::Square { length: *length, rod }, Mouth::Back)
            }
            Cut::Bore(bore) => (Work::Bore(Box::new(self.bore(bore, piece)?)), self.side(bore)),
            Cut::Tenon(tenon) => {
                let major = tenon.thread.limits.major;
                let work = TenonWork { tenon: tenon.clone(), turn_to: major.mid(), major };
                (Work::Tenon(Box::new(work)), Mouth::Back)
            }
            Cut::TenonThread(thread) => {
                let work = ThreadWork { thread: thread.clone(), full: from_back(thread) };
                (Work::TenonThread(Box::new(work)), Mouth::Back)
            }
            Cut::Face { off } => {
                let from_shoulder = section.sequence() == Sequence::TenonFirst;
                let front = piece.front() + *off;
                let to = if from_shoulder { section.grip.length() } else { back };
                (Work::Face { off: *off, leaves: to - front, from_shoulder }, Mouth::Front)
            }
            Cut::Tap(thread) => {
                let to_come = Length::ZERO - piece.front();
                let tapping = Tapping::of(thread, section, to_come, self.workshop);
                (Work::Tap(Box::new(tapping)), Mouth::Front)
            }
            Cut::Outside(_) => {
                (Work::Outside(Box::new(Outside::of(section, sanding))), Mouth::Front)
            }
            Cut::CapThread(thread) => {
                let full = thread.full().map(|z| z - piece.front());
                (
                    Work::CapThread(Box::new(ThreadWork { thread: thread.clone(), full })),
                    Mouth::Front,
                )
            }
            Cut::Sand { off } => (Work::Sand { off: *off }, Mouth::Front),
        })
    }

    fn bore(&self, bore: &Bore, piece: &Workpiece) -> Result<BoreWork, PlanError> {
        let side = Bore { mouth: self.side(bore), ..bore.clone() };
        let mut after = piece.clone();
        after.take(&Cut::Bore(bore.clone()));
        let choice = self.choices.iter().find(|choice| choice.item == bore.item).cloned();
        let choice = choice.expect("every hole of the section was chosen for");
        let turned = is_turned(bore, &choice.taken);
        // A bar stands on the cross slide: the quill's wheel says nothing of it.
        let quill = self.workshop.lathe.quill.filter(|_| !turned);
        // A reamer has no point of its own to go ahead of it.
        let reamed = matches!(&choice.taken, Taken::Tool(tool) if tool.kind == ToolKind::Reamer);
        let side = if reamed { Bore { point: Point::Flat, ..side } } else { side };
        let depths = Depths::of(&side, piece, quill)?;
        let peck = bore.diameter * self.workshop.cutting.peck.value;
        let there = piece.mouth(side.mouth);
        Ok(BoreWork {
            pin: PinReading::of(bore, &after)?,
            peck,
            opens: (there > Length::ZERO && !turned)
                .then_some(there)
                .filter(|there| bore.diameter - *there < OPENS_BY),
            breaks_through: bore.depth == Depth::Through,
            bore: bore.clone(),
            choice,
            depths,
        })
    }

    fn add(&self, progress: &mut Progress, work: Work, face: Mouth, cut: Option<Cut>) {
        let to_come = match face {
            Mouth::Front => Length::ZERO - progress.piece.front(),
            Mouth::Back => Length::ZERO,
        };
        progress.operations.push(Operation {
            speed: self.speed(&work),
            tight: self.tight(&work),
            holding: progress.holding.clone(),
            held_anew: progress.held_anew,
            measured: Measured { face, to_come: to_come.max(Length::ZERO) },
            work,
            cut,
        });
        progress.held_anew = false;
    }

    fn speed(&self, work: &Work) -> Option<Speed> {
        let (lathe, cutting) = (&self.workshop.lathe, &self.workshop.cutting);
        let drilled =
            |diameter| Some(Speed::of(lathe, &cutting.drilling, &lathe.tailstock_drill, diameter));
        let turned = || {
            let rod = self.section.blank.diameter;
            Some(Speed::of(lathe, &cutting.turning, &lathe.turning, rod))
        };
        match work {
            // What is cut inside by a bar or hook tool is turned: its speed is the hole's wall's.
            Work::Bore(bore) if bore.is_turned() => {
                Some(Speed::of(lathe, &cutting.turning, &lathe.turning, bore.bore.diameter))
            }
            Work::Bore(bore) => drilled(bore.bore.diameter),
            Work::Spot { within, .. } => drilled(*within),
            Work::Square { .. } | Work::Tenon(_) | Work::Face { .. } | Work::Outside(_) => turned(),
            _ => None,
        }
    }

    /// How far under and over a size may come out: a depth is held by the quill's scale, or, where
    /// there is none, by a mark on the tool.
    fn held(&self, room: &Room) -> [f64; 2] {
        let scale = self.workshop.lathe.quill.is_some_and(|quill| quill.divisions.is_some());
        if room.means != Means::Depth || scale {
            return room.held;
        }
        let (mark, _) = self.section.maker.holds(Means::Mark);
        [-mark.min().as_mm(), mark.max().as_mm()]
    }

    /// The sizes of a step, the critical ones first.
    fn tight(&self, work: &Work) -> Vec<Tight> {
        let own = self.rooms.iter().filter(|room| belongs(room.parameter, work));
        let mut tight: Vec<Tight> = own.map(|room| Tight::of(room, self.held(room))).collect();
        tight.sort_by_key(|tight| !tight.critical);
        tight
    }
}

/// Whether a size is made in a step.
fn belongs(parameter: SizeId, work: &Work) -> bool {
    use SizeId as P;
    match work {
        Work::Bore(bore) => {
            let item = bore.bore.item;
            matches!(parameter, P::BoreDiameter(own) | P::BoreDepth(own) | P::ReliefStart(own)
                if own == item)
        }
        Work::Tap(_) => matches!(parameter, P::UnitThreadEnd),
        Work::Tenon(_) => matches!(
            parameter,
            P::TenonLength
                | P::TenonChamfer
                | P::PilotDiameter
                | P::ReliefDiameter
                | P::ReliefWidth
        ),
        Work::Face { .. } => parameter == P::GripLength,
        Work::Outside(_) => {
            matches!(parameter, P::FrontDiameter | P::GripDiameter(_) | P::GrooveDepth(_))
        }
        _ => false,
    }
}
