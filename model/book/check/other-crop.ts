import { CROP_CATALOGUE, type CropKey } from "../../drying/index.ts";

const labelOf = (crop: CropKey): string => CROP_CATALOGUE[crop].label.toLowerCase();

/**
 * A cut or a lot of another crop than its field's: a question, never refused. It may be right: a nurse crop over a new
 * seeding, a second crop of the year, a field that was sown anew since, a lot of another year.
 */
export function otherCropText(crop: CropKey | null, fieldCrop: CropKey | null): string {
  if (crop === null || fieldCrop === null || crop === fieldCrop) return "";
  return `The field is kept with ${labelOf(fieldCrop)}: is this ${labelOf(crop)}? Moistures, waits and nitrate go by the crop.`;
}
