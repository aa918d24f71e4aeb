import { type Code, codeList, type Field, fieldsOf, truthFields } from "../field.ts";

/** Techniques, also of a reoperation. */
export const techniques: readonly Code[] = codeList({
  "scleral buckle":
    "SB; buckle; scleral buckling; buckling; cryobuckle; cryo buckle; explant; cryo and buckle; segmental buckle; encircling buckle; EBP",
  vitrectomy: "PPV; TPPV; pars plana vitrectomy; vit; PPV gas; PPV and gas; vitrectomy and gas",
  "vitrectomy with buckle":
    "PPV SB; SB PPV; PPV and SB; PPV with SB; vitrectomy and buckle; vitrectomy buckle; PPV with buckle; PPV buckle; combined; combined PPV SB; vitrectomy and scleral buckle; vitrectomy with scleral buckle; vitrectomy scleral buckle",
  "pneumatic retinopexy": "PR; PnR; pneumatic; pneumoretinopexy; pneumatic RP",
  "laser or cryo alone":
    "laser; cryo; cryotherapy; laser alone; cryo alone; laser barrage; barrier laser; demarcation laser; laser or cryotherapy alone; retinopexy alone",
  "buckle revision":
    "revision of buckle; revise buckle; buckle repositioning; buckle adjustment; SB revision",
  "gas injection": "gas; gas top up; gas topup; intravitreal gas; additional gas",
  "oil removal":
    "ROSO; RSO; SOR; ROO; removal of oil; removal of silicone oil; silicone oil removal; oil out; oil extraction",
  other: "others; else",
});

/** What was done. */
export const operation: readonly Field[] = fieldsOf("the operation", [
  {
    name: "technique",
    label: "technique",
    kind: "code",
    meaning: "What kind of repair.",
    codes: techniques,
    headings: [
      "procedure",
      "operation",
      "surgery",
      "surgery type",
      "type of surgery",
      "operation type",
      "type of operation",
      "surgical technique",
      "procedure type",
      "primary procedure",
    ],
  },
  {
    name: "buckle_element",
    label: "buckle element",
    kind: "codes",
    meaning: "How the buckle lies.",
    codes: codeList({
      segmental: "circumferential; segment; segmental circumferential; local; tyre; tire",
      radial: "radial sponge; radial element",
      encircling: "encirclement; band; 360; encircling band; encirclage; cerclage",
    }),
    headings: ["buckle", "buckle type", "type of buckle", "element", "explant type"],
  },
  {
    name: "retinopexy",
    label: "retinopexy",
    kind: "code",
    meaning: "How the breaks were sealed.",
    codes: codeList({
      cryotherapy: "cryo; cryopexy",
      laser: "photocoagulation; endolaser; laserpexy; laser photocoagulation",
      both: "cryo and laser; laser and cryo; cryo laser; laser cryo",
      none: "no; nil; N",
    }),
    headings: ["pexy", "retinopexy type", "type of retinopexy"],
  },
  ...truthFields({
    subretinal_drainage: "Subretinal fluid was drained. | drainage; SRF drainage; drained; SRFD",
    heavy_liquid: "Perfluorocarbon liquid was used. | PFCL; perfluorocarbon; PFC; heavy liquids",
    vitreous_base_trim: "The vitreous base was trimmed. | base trim; vitreous base shave; shave",
    membrane_peel: "Membranes were peeled. | peel; membrane peeling; ERM peel; MP",
    retinectomy: "Retina was cut or removed. | relaxing retinectomy; retinotomy or retinectomy",
    lens_removed:
      "The lens was removed at the same operation. | lensectomy; phaco; phacovitrectomy",
  }),
  {
    name: "tamponade",
    label: "tamponade",
    kind: "code",
    meaning: "What was left in the eye.",
    codes: codeList({
      none: "no; nil; no tamponade; BSS; fluid",
      air: "A; filtered air",
      SF6: "sulfur hexafluoride; sulphur hexafluoride; SF-6",
      C2F6: "hexafluoroethane; perfluoroethane",
      C3F8: "perfluoropropane; octafluoropropane",
      "silicone oil":
        "oil; SO; SiO; SiOil; silicone; heavy oil; silicon oil; oil 1000; oil 5000; 1000 cs oil; 5000 cs oil",
    }),
    headings: ["tamponade agent", "tamponade type", "gas or oil", "internal tamponade", "gas type"],
  },
  {
    name: "gas_percent",
    label: "gas percent",
    kind: "number",
    unit: "%",
    range: { least: 0, most: 100 },
    meaning: "Concentration of the gas.",
    headings: ["gas concentration", "gas %", "concentration", "gas pct"],
  },
  {
    name: "operative_complication",
    label: "operative complication",
    kind: "codes",
    meaning: "What went wrong during the operation.",
    codes: codeList({
      "iatrogenic break": "iatrogenic tear; iatrogenic; entry site break; iatrogenic retinal break",
      haemorrhage:
        "hemorrhage; bleed; bleeding; suprachoroidal haemorrhage; subretinal haemorrhage; choroidal haemorrhage",
      "lens touch": "lens trauma; lens damage",
      "retinal incarceration": "incarceration",
      other: "others",
      none: "no; nil; N; 0; no complication",
    }),
    headings: [
      "intraoperative complication",
      "intraop complication",
      "operative complications",
      "perioperative complication",
    ],
  },
]);
