/** Which files and houses are looked at again, by a draw that anybody can repeat. */
export {};
