// Complaints in plain clients' words, each with the steps that a lead would name. All are invented. They were written from the titles of
// the steps alone, before anything was ranked, and never changed to be found: misspellings, wrong words and side stories stay.
// Every other one is held out: what may be tuned was tuned on the first of each two, and the second is only measured.

/** Any of `steps` is right. */
export type Labelled = { system: string; place: string; words: string; steps: readonly string[] };

/** One each line: system, place, what was said, the step (another that is as right behind it). */
const LINES = `
electrical | garage | The plug in the garage where the beer fridge sits has no juice since you people were here. Somebody pushed the little test button in the bath and never got it going again. | ground-fault-trip-reset
electrical | kitchen | Electrician says the outlets by the sink should be the kind with a button and they are not. Nobody told us. | ground-fault-where-expected
electrical | basement | There is a double tapped breaker in the fuse box and it got hot. The electrician saw it the minute he took the lid off. | panel-interior
electrical | bedroom | Three of the plugs in the back bedroom have hot and neutral swapped, my handyman checked with one of those three light testers. | receptacle-polarity-and-grounding
electrical | living room | Half the light swiches in the living room do nothing and one outlet is dead. | lights-switches-receptacles
electrical | whole house | Insurance man says we have knob and tube. How could you miss that in a house this old? | old-wiring-signs
electrical | hall | Cover plates get warm, now we hear the house has aluminum wires from the sixties and the ends were never fixed. | aluminum-branch-connections old-wiring-signs
electrical | basement | Somebody put 30 amp fuses on the little wires. That is a fire waiting to happen the electrician told me. | fuses-and-their-sizes
electrical | outside | The line from the pole to the house is bare where the squirrels chewed it and the pipe it comes in by is leaning. | service-entrance
electrical | basement | They say there is no ground rod and the wire on the water pipe is cut off. | service-equipment-and-grounding bonding-of-metal-pipes
electrical | closet | The electrical panel is in a clothes closet with shelves right in front, inspector for the city wont allow it. | panel-location-and-space
electrical | workshop | In the sub panel out in the workshop the neutrals and grounds are on the same bar. | more-than-one-panel
electrical | basement | Your guys left two screws out of the breaker box cover and it is hanging crooked. | panel-cover-back
electrical | bedrooms | The afci breakers for the bedrooms dont trip when you push test. | arc-fault-devices
electrical | house | We were told 200 amps. It is only a 100 amp service and now we cannot put in the car charger. | service-rating
electrical | gas line | Plumber says the yellow flexible gas pipe isnt bonded to anything. | bonding-of-metal-pipes
plumbing | upstairs bathroom | The toilet upstairs rocks and leaks at the bottom, it came through the ceiling below. | bathroom-fixtures
plumbing | master shower | Tiles in the shower are loose and the wall behind is mush. You can push it in with a finger. | tub-and-shower-surround
plumbing | kitchen | Water under the kitchen sink cabinet, the sprayer hose drips and the floor of the cabinet is rotted out. | kitchen-sink
plumbing | basement | A pinhole leek in a copper pipe over the washer, green crust all along it. | supply-pipes
plumbing | whole house | Water preasure is way over 80, the plumber put his gage on the spigot and it blew our ice maker line. | water-pressure
plumbing | showers | When somebody runs the kitchen tap the shower goes down to a dribble. | functional-flow
plumbing | back yard | The outside spigot burst in the wall, water everywhere in the basement when we turned on the hose. | hose-faucets
plumbing | basement | Sewer smell in the basement, a drain pipe has no trap and the vent is just open. | drain-waste-vent
plumbing | street | The line from the street is lead! The water works sent us a letter. | lead-service-line
plumbing | whole house | The gray plastic water pipes are the kind that were in the lawsuit and a fitting let go. | gray-plastic-supply-pipe
plumbing | front yard | Roots in the clay sewer pipe, backed up into the floor drain two weeks after we moved in. | sewer-line-by-age
plumbing | kitchen range | I smelled gas at the stove and the gas company red tagged the shut off. | gas-piping
plumbing | laundry | The washing machine drain overflows on every spin, and the rubber hoses are all bulging. | laundry-connections
plumbing | basement bath | The pump for the basement toilet quit and the pit came up through the lid. | ejector-pit-in-basement
plumbing | basement | No idea where to shut the water off, the main valve is behind the paneling and it was not in the report. | water-meter-and-main-valve water-main-valve-photo
plumbing | yard | The dishwasher drains straight into the disposer without a loop and the hose bib has no vacum breaker. | stops-air-gaps-and-backflow
plumbing | basement | The expansion tank is full of water and dead, that is what the plumber said made the relief drip. | pressure-control-and-expansion
plumbing | behind garage | Propane tank sits right under the window and the regulator is hanging loose. | propane-tank-outside
plumbing | basement | Oil tank legs rusted through and there is a puddle of oil under the gauge end. | oil-tank-inside
water_heater | basement | The hot water tank was 19 years old. It let go Sunday and there was no pan under it. | water-heater-plate-and-pan water-heater-data-plate
water_heater | utility room | The overflow pipe on the side of the water heater is capped off. Plumber says it could blow up. | relief-valve-pipe
water_heater | bath | My little girl got scalded in the tub, the water comes out at 150. | hot-water-temperature
water_heater | basement | Fumes from the water heater come back into the room instead of up the chimney, there is soot on the top. | water-heater-draft water-heater-and-vent
water_heater | basement | The metal vent pipe of the watter heater came apart at the elbow and has no screws. | water-heater-and-vent
heating | basement | Furnance wont stay lit. Tech says heat exchanger is cracked and has been for years. | heating-equipment heating-run
heating | upstairs bedroom | There is no heat at all in the bedroom over the garage, not even a register. | heat-in-each-room
heating | basement | The filter was so dirty it had caved in and got sucked into the blower. | filter-and-air-handler
heating | basement | The flue from the boiler has holes rusted in it and it slopes down toward the chimney. | heating-vents-and-flues
heating | basement | We turned the furnace on in october and it never came on, the thermostat clicks but nothing happens. | heating-run
heating | living room | Radiators on the north side stay cold and one leaks at the valve. | radiators-and-circulation
heating | boiler room | The gauge on the boiler is in the red and the relief valve keeps spitting on the floor. | boiler-pressure-and-relief
heating | yard | When we dug for the patio we hit a fuel oil tank nobody knew of. There was a capped copper line in the basement all along. | buried-oil-tank-signs
heating | furnace room | Furnace closet has no vent or louvers, they say it starves for air with the door shut. | combustion-air
heating | crawl area | Half of the duct to the family room is crushed and one fell off, we were heating the crawl space. | ducts-and-registers crawl-space-water-and-pipes
heating | den | The baseboard heater in the den glowed red, scorched the curtains, electric kind. | electric-baseboards
heating | cabin room | Wood stove pipe is only six inches off the wall behind it. Fire department said do not light it. | heating-stove heating-vents-and-flues
heating | outside unit | The heat pump only runs on the strips and our electric bill was six hundred dollars. | heat-pump-in-heat
heating | basement | Smell of oil and black smoke when the burner kicks on. | oil-burner-signs
heating | basement | Air out of the vents is barely warm when the furnace runs, temp rise is all wrong according to the hvac guy. | furnace-rise heating-run
cooling | outside | AC blows warm. They say the coil outside is all bent and it is low on freon. | cooling-split cooling-run cooling-equipment
cooling | attic unit | Water came through the ceiling from the airconditioner pan in the attic, no float switch on it. | condensate-pan-and-switch
cooling | family room | The window air conditioner is stuck in the sash with cardboard and fell out. | room-cooling-units
cooling | side yard | The central air compressor is from 1994 and the insulation is gone off the line. | cooling-equipment
cooling | house | We tried the ac the first hot day and it would not start, report said it worked. | cooling-run
roof | back slope | Shingels blew off the back in the first wind, roofer found two layers and nails sticking up. | asphalt-shingles-detail roof-covering
roof | over dining room | Leak around the skylight every time it rains hard. The flashing is just tar. | roof-flashings-and-openings
roof | front | Downspout dumps right at the corner and the gutters are full of little trees. | roof-drainage
roof | chimney | Bricks are falling off the chimney top and the crown is cracked through. | chimney-outside
roof | eaves | Ice built up along the edge this winter and water ran down inside the wall. There was old staining they should have seen. | ice-dam-signs
roof | addition | The rubber roof over the addition holds a pond and the seam is open. | flat-roof-detail
roof | barn side | Screws backing out all over the metal roof, rubber washers gone. | metal-roof-detail
roof | whole | The cedar shakes are split and mossy, roofer wants to replace all of it. | wood-roof-detail
attic | attic | There is maybe three inches of insulation up there. Report said plenty. | attic-insulation
attic | attic | The bathroom fan just blows in the attic, all the wood is black around it. | attic-bath-fan-duct
attic | attic | Somebody cut through a truss to get storage and the roof is sagging. | roof-structure-from-attic
attic | attic | Soffit vents stuffed with insulation, frost on the nails all winter. | attic-ventilation roof-underside
attic | hall | The pull down attic ladder broke, it was screwed up with drywall screws. | attic-hatch-or-stair
attic | attic | That grey fluffy stuff in the attic is vermiculite and tested positive for asbestos. | attic-old-insulation
attic | attic | Water stains and rot on the underside of the roof boards by the valley. | roof-underside roof-structure-from-attic
attic | attic | Open splices and a bulb socket with no box lying in the insulation. | attic-wiring-and-lights
structure | basement | The basement flooded with the first big rain and there are old water lines on the paneling. | water-entry-lowest-level
structure | basement | Block wall is bowing in, engineer says over two inches. | block-wall-bow
structure | basement | Sump pump is dead and the pit was full to the brim. | sump-pump
structure | crawlspace | Nobody went under the house. There is standing water and the plastic is all torn up down there. | crawl-space-inside crawl-space-water-and-pipes foundation-ventilation
structure | first floor | A floor joist was notched for the tub drain and is cracked clean through. | floor-framing
structure | basement | One of the steel posts holding the beam is rusted out at the bottom, the other is just a jack. | columns-and-beams
structure | foundation | Big crack in the foundation you can put a hand in, hidden behind the shrub. | foundation-walls
structure | dining room | The floor slopes so bad a marble rolls to the window. | floors-walked
structure | basement | The wood on top of the foundation is soft, you can stick a screwdriver in it. Carpenter ants too. | sill-wood-moisture what-invites-wood-insects
exterior | back | The deck pulled away from the house during a party. It was only nailed on! | deck-ledger-and-guards
exterior | front steps | Railing on the front steps came off in my mothers hand and she fell. | stoops-steps-porches-railings
exterior | yard | The ground slopes toward the house and all the rain runs at the foundation. | grading-and-drainage
exterior | north wall | Siding is rotten behind the trim, there was no flashing over the window. | cladding-flashing-trim
exterior | drive | The retaining wall by the driveway is leaning and about to fall on the car. | walks-drives-retaining-walls
exterior | window well | The egress window well fills with water and rusted through, no drain in it. | window-wells-and-outside-cellar-stairs
exterior | yard | A hole opened up in the lawn and under it is an old brick cistern with a rotten lid. Our boy nearly went in. | old-wells-cisterns-and-holes
exterior | side | Tree branches rub the roof and the ivy has pulled the boards off. | plants-at-the-house
exterior | overhang | Squirrels got in where the fascia board is rotted at the corner of the overhang. | eaves-soffits-fascia
interior | ceiling | A brown spot on the dining room cieling had been painted over and it is back. | water-signs-inside
interior | stairs | Basement stairs have no hand rail and my father took a tumble. | stairs-and-guards-inside
interior | bedroom | Bedroom window is painted shut, no way to get out in a fire. | bedroom-escape
interior | bath | The exhaust fan in the bath makes noise but pulls no air. | bathroom-venting
interior | laundry | The dryer vents behind the machine into the wall, lint everywhere. | kitchen-and-laundry-venting
interior | closet | Black mold in the closet on the outside wall. | condensation-and-mold-like-growth
interior | patio door | The glass in the patio door is not tempered, the glazier says. My son ran into it. | safety-glass
interior | nursery | Our baby has lead in his blood and the window sills are flaking. House is 1920. | old-paint-inside
interior | basement | The radon pipe fan in the basement has not run for who knows how long, the little tube gauge is level. | radon-fan-as-found
interior | kitchen | Kitchen cabinet fell off the wall with all our dishes. | doors-windows-cabinets
interior | living room | Cracks in the plaster and the floor is buckled under the rug. | walls-ceilings-floors
interior | basement | The nine inch floor tiles are asbestos, abatement is four thousand. | old-floor-tiles-and-wraps
other | kitchen | Dishwasher leaked all over the first time we used it. | dishwasher-run
other | kitchen | The stove tipped when my toddler stood on the oven door. There is no bracket. | range-oven-and-tip-guard
other | kitchen | Garbage disposal just hums. | microwave-disposer-compactor
garage | overhead door | The garage door came down on our dog and didnt stop. | garage-door-reversal garage-door-photo-eye
garage | overhead door | Garage door spring snapped, the cable was frayed already. | garage-door-look
garage | door to house | The door from the garage to the house is hollow and there is a hole in the drywall, fire marshal says that must be rated. | garage-separation
garage | garage | Water heater in the garage stands right on the floor where gas fumes collect. | garage-floor-and-burners
garage | overhead door | The safety beams on the garage opener are taped together up at the ceiling. | garage-door-photo-eye
fireplace | living room | Chimney sweep says firebrick is cracked and the hearth is too short. | fireplace-and-hearth
fireplace | den | Smoke filled the room, the damper was rusted shut. | fireplace-damper
fireplace | den | The flue tiles are broken, you could see it with a flashlight looking up. | flue-seen-from-firebox
fireplace | family room | Gas log has no glass and the pilot keeps going out. | gas-fireplace-or-log
alarms | upstairs | The smoke detecters were all dead and from 1998. | smoke-alarms
alarms | hall | No CO detector anywhere by the bedrooms. | carbon-monoxide-alarms
other | house | They left the thermostat turned down to 50 and the heat off, pipes froze. | restore-what-we-changed thermostat-as-found
other | back door | Your people left the back door unlocked and the cat got out. | locked-and-keys-back
plumbing | yard | The sprinkler system has no backflow thing and zone 3 wont come on. | sprinkler-zones sprinkler-backflow
exterior | pool | The gate to the pool does not latch by itself and a neighbor kid got in. | pool-barrier
`;

export const COMPLAINTS: readonly Labelled[] = LINES.trim()
  .split('\n')
  .map((line) => {
    const [system, place, words, steps] = line.split(' | ') as [string, string, string, string];
    return { system, place, words, steps: steps.split(' ') };
  });
export const TUNED = COMPLAINTS.filter((_, at) => at % 2 === 0);
export const HELD_OUT = COMPLAINTS.filter((_, at) => at % 2 === 1);
